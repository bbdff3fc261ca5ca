//! Data table: the constituents by name, their Doodson numbers, their node factors and what the
//! compound ones are made of.
//!
//! Doodson numbers, phases and node factors of the astronomical constituents: P. Schureman, *Manual
//! of Harmonic Analysis and Prediction of Tides*, Coast and Geodetic Survey Special Publication
//! 98 (1940 edition), table 2. Names and make-up of the compound ones: the list of standard
//! constituents of the International Hydrographic Organization, and for the Netherlands' own (SM,
//! M1C, M7, 3KM5 and others) the names of Rijkswaterstaat's lists, held to its printed speeds and
//! predictions in the tests. `TAU1` and `EPS2` and the like, which Schureman does not list, stand
//! under the numbers of that list with the node factor of their kind.

use super::constituent::{Entry, Kind};
use super::node::Node;

/// One of the tide's own lines: name, other names, Doodson numbers (τ, s, h, p, N′, p₁), quarter turns.
const fn own(
    name: &'static str,
    also: &'static [&'static str],
    doodson: [i8; 6],
    quarters: i8,
    node: Node,
) -> Entry {
    Entry { name, also, kind: Kind::Own { doodson, quarters, node } }
}

/// A line that shallow water makes of others.
const fn made(
    name: &'static str,
    also: &'static [&'static str],
    parts: &'static [(i8, &'static Entry)],
) -> Entry {
    Entry { name, also, kind: Kind::Made(parts) }
}

static Z0: Entry = own("Z0", &[], [0, 0, 0, 0, 0, 0], 0, Node::None);
static SA: Entry = own("SA", &[], [0, 0, 1, 0, 0, 0], 0, Node::None);
static SSA: Entry = own("SSA", &[], [0, 0, 2, 0, 0, 0], 0, Node::None);
static STA: Entry = own("STA", &[], [0, 0, 3, 0, 0, 0], 0, Node::None);
static MSM: Entry = own("MSM", &[], [0, 1, -2, 1, 0, 0], 0, Node::Mm);
static MM: Entry = own("MM", &[], [0, 1, 0, -1, 0, 0], 0, Node::Mm);
static MSF: Entry = own("MSF", &[], [0, 2, -2, 0, 0, 0], 0, Node::Mm);
static MF: Entry = own("MF", &[], [0, 2, 0, 0, 0, 0], 0, Node::Mf);
static MSTM: Entry = own("MSTM", &[], [0, 3, -2, 1, 0, 0], 0, Node::Mf);
static MTM: Entry = own("MTM", &["MFM"], [0, 3, 0, -1, 0, 0], 0, Node::Mf);
static MSQM: Entry = own("MSQM", &[], [0, 4, -2, 0, 0, 0], 0, Node::Mf);
static N_2Q1: Entry = own("2Q1", &[], [1, -3, 0, 2, 0, 0], 3, Node::O1);
static SIGMA1: Entry = own("SIGMA1", &["SIG1"], [1, -3, 2, 0, 0, 0], 3, Node::O1);
static Q1: Entry = own("Q1", &[], [1, -2, 0, 1, 0, 0], 3, Node::O1);
static RHO1: Entry = own("RHO1", &["RHO"], [1, -2, 2, -1, 0, 0], 3, Node::O1);
static O1: Entry = own("O1", &[], [1, -1, 0, 0, 0, 0], 3, Node::O1);
static M1C: Entry = own("M1C", &[], [1, 0, 0, 0, 0, 0], 2, Node::M1C);
static M1: Entry = own("M1", &[], [1, 0, 0, 1, 0, 0], 1, Node::M1);
static CHI1: Entry = own("CHI1", &[], [1, 0, 2, -1, 0, 0], 1, Node::J1);
static PI1: Entry = own("PI1", &[], [1, 1, -3, 0, 0, 1], 3, Node::None);
static P1: Entry = own("P1", &[], [1, 1, -2, 0, 0, 0], 3, Node::None);
static S1: Entry = own("S1", &[], [1, 1, -1, 0, 0, 0], 2, Node::None);
static K1: Entry = own("K1", &[], [1, 1, 0, 0, 0, 0], 1, Node::K1);
static PSI1: Entry = own("PSI1", &[], [1, 1, 1, 0, 0, -1], 1, Node::None);
static PHI1: Entry = own("PHI1", &[], [1, 1, 2, 0, 0, 0], 1, Node::None);
static THETA1: Entry = own("THETA1", &["THE1"], [1, 2, -2, 1, 0, 0], 1, Node::J1);
static J1: Entry = own("J1", &[], [1, 2, 0, -1, 0, 0], 1, Node::J1);
static OO1: Entry = own("OO1", &[], [1, 3, 0, 0, 0, 0], 1, Node::Oo1);
static UPS1: Entry = own("UPS1", &[], [1, 4, 0, -1, 0, 0], 1, Node::Oo1);
static EPS2: Entry = own("EPS2", &["EPSILON2"], [2, -3, 2, 1, 0, 0], 0, Node::M2);
static N_2N2: Entry = own("2N2", &[], [2, -2, 0, 2, 0, 0], 0, Node::M2);
static MU2: Entry = own("MU2", &[], [2, -2, 2, 0, 0, 0], 0, Node::M2);
static N2: Entry = own("N2", &[], [2, -1, 0, 1, 0, 0], 0, Node::M2);
static NU2: Entry = own("NU2", &[], [2, -1, 2, -1, 0, 0], 0, Node::M2);
static GAMMA2: Entry = own("GAMMA2", &[], [2, 0, -2, 2, 0, 0], 2, Node::M2);
static MA2: Entry = own("MA2", &[], [2, 0, -1, 0, 0, 0], 0, Node::M2);
static M2: Entry = own("M2", &[], [2, 0, 0, 0, 0, 0], 0, Node::M2);
static MB2: Entry = own("MB2", &[], [2, 0, 1, 0, 0, 0], 0, Node::M2);
static LAMBDA2: Entry =
    own("LAMBDA2", &["LAM2", "LABDA2", "LDA2"], [2, 1, -2, 1, 0, 0], 2, Node::M2);
static L2: Entry = own("L2", &[], [2, 1, 0, -1, 0, 0], 2, Node::L2);
static T2: Entry = own("T2", &[], [2, 2, -3, 0, 0, 1], 0, Node::None);
static S2: Entry = own("S2", &[], [2, 2, -2, 0, 0, 0], 0, Node::None);
static R2: Entry = own("R2", &[], [2, 2, -1, 0, 0, -1], 2, Node::None);
static K2: Entry = own("K2", &[], [2, 2, 0, 0, 0, 0], 0, Node::K2);
static KJ2: Entry = own("KJ2", &["ETA2"], [2, 3, 0, -1, 0, 0], 0, Node::Kj2);
static M3: Entry = own("M3", &[], [3, 0, 0, 0, 0, 0], 2, Node::M3);
static S3: Entry = own("S3", &[], [3, 3, -3, 0, 0, 0], 2, Node::None);

/// The lines of the tide itself, by their speeds.
pub(super) static OWN: [&Entry; 47] = [
    &Z0, &SA, &SSA, &STA, &MSM, &MM, &MSF, &MF, &MSTM, &MTM, &MSQM, &N_2Q1, &SIGMA1, &Q1, &RHO1,
    &O1, &M1C, &M1, &CHI1, &PI1, &P1, &S1, &K1, &PSI1, &PHI1, &THETA1, &J1, &OO1, &UPS1, &EPS2,
    &N_2N2, &MU2, &N2, &NU2, &GAMMA2, &MA2, &M2, &MB2, &LAMBDA2, &L2, &T2, &S2, &R2, &K2, &KJ2,
    &M3, &S3,
];

/// The compound ones, by their kind and speed.
pub(super) static MADE: [Entry; 175] = [
    made("SM", &[], &[(1, &S2), (-1, &M2)]),
    made("2SM", &[], &[(2, &S2), (-2, &M2)]),
    made("2SMN", &[], &[(2, &S2), (-1, &M2), (-1, &N2)]),
    made("NO1", &[], &[(1, &N2), (-1, &O1)]),
    made("MS1", &[], &[(1, &M2), (-1, &S1)]),
    made("TAU1", &["MP1"], &[(1, &M2), (-1, &P1)]),
    made("2PO1", &[], &[(2, &P1), (-1, &O1)]),
    made("SO1", &[], &[(1, &S2), (-1, &O1)]),
    made("KQ1", &[], &[(1, &K2), (-1, &Q1)]),
    made("2NS2", &[], &[(2, &N2), (-1, &S2)]),
    made("3MKS2", &[], &[(3, &M2), (-1, &K2), (-1, &S2)]),
    made("3MS2", &[], &[(3, &M2), (-2, &S2)]),
    made("OQ2", &[], &[(1, &O1), (1, &Q1)]),
    made("MNS2", &[], &[(1, &M2), (1, &N2), (-1, &S2)]),
    made("2ML2S2", &[], &[(2, &M2), (1, &L2), (-2, &S2)]),
    made("NLK2", &[], &[(1, &N2), (1, &L2), (-1, &K2)]),
    made("2MK2", &[], &[(2, &M2), (-1, &K2)]),
    made("2MS2", &[], &[(2, &M2), (-1, &S2)]),
    made("NKM2", &[], &[(1, &N2), (1, &K2), (-1, &M2)]),
    made("SNM2", &[], &[(1, &S2), (1, &N2), (-1, &M2)]),
    made("2KN2S2", &[], &[(2, &K2), (1, &N2), (-2, &S2)]),
    made("OP2", &[], &[(1, &O1), (1, &P1)]),
    made("MSK2", &[], &[(1, &M2), (1, &S2), (-1, &K2)]),
    made("MPS2", &[], &[(1, &M2), (1, &P1), (-1, &S1)]),
    made("MSP2", &[], &[(1, &M2), (1, &S1), (-1, &P1)]),
    made("MKS2", &[], &[(1, &M2), (1, &K2), (-1, &S2)]),
    made("M2(KS)2", &[], &[(1, &M2), (2, &K2), (-2, &S2)]),
    made("2SN(MK)2", &[], &[(2, &S2), (1, &N2), (-1, &M2), (-1, &K2)]),
    made("2MN2", &[], &[(2, &M2), (-1, &N2)]),
    made("MSN2", &[], &[(1, &M2), (1, &S2), (-1, &N2)]),
    made("2KM(SN)2", &[], &[(2, &K2), (1, &M2), (-1, &S2), (-1, &N2)]),
    made("SKN2", &[], &[(1, &S2), (1, &K2), (-1, &N2)]),
    made("2SM2", &[], &[(2, &S2), (-1, &M2)]),
    made("SKM2", &[], &[(1, &S2), (1, &K2), (-1, &M2)]),
    made("2KM2", &[], &[(2, &K2), (-1, &M2)]),
    made("3(SM)N2", &[], &[(3, &S2), (-3, &M2), (1, &N2)]),
    made("2SN2", &[], &[(2, &S2), (-1, &N2)]),
    made("MQ3", &[], &[(1, &M2), (1, &Q1)]),
    made("NO3", &[], &[(1, &N2), (1, &O1)]),
    made("MO3", &[], &[(1, &M2), (1, &O1)]),
    made("2MK3", &[], &[(2, &M2), (-1, &K1)]),
    made("2MP3", &[], &[(2, &M2), (-1, &P1)]),
    made("NK3", &[], &[(1, &N2), (1, &K1)]),
    made("SO3", &[], &[(1, &S2), (1, &O1)]),
    made("MP3", &[], &[(1, &M2), (1, &P1)]),
    made("MS3", &[], &[(1, &M2), (1, &S1)]),
    made("MK3", &[], &[(1, &M2), (1, &K1)]),
    made("SP3", &[], &[(1, &S2), (1, &P1)]),
    made("SK3", &[], &[(1, &S2), (1, &K1)]),
    made("K3", &[], &[(1, &K2), (1, &K1)]),
    made("4MS4", &[], &[(4, &M2), (-2, &S2)]),
    made("2MNS4", &[], &[(2, &M2), (1, &N2), (-1, &S2)]),
    made("3MK4", &[], &[(3, &M2), (-1, &K2)]),
    made("MNLK4", &[], &[(1, &M2), (1, &N2), (1, &L2), (-1, &K2)]),
    made("3MS4", &[], &[(3, &M2), (-1, &S2)]),
    made("MSNK4", &[], &[(1, &M2), (1, &S2), (1, &N2), (-1, &K2)]),
    made("N4", &[], &[(2, &N2)]),
    made("MN4", &[], &[(1, &M2), (1, &N2)]),
    made("MNU4", &[], &[(1, &M2), (1, &NU2)]),
    made("2MLS4", &[], &[(2, &M2), (1, &L2), (-1, &S2)]),
    made("2MSK4", &[], &[(2, &M2), (1, &S2), (-1, &K2)]),
    made("M4", &[], &[(2, &M2)]),
    made("2MKS4", &[], &[(2, &M2), (1, &K2), (-1, &S2)]),
    made("SN4", &[], &[(1, &S2), (1, &N2)]),
    made("3MN4", &[], &[(3, &M2), (-1, &N2)]),
    made("ML4", &[], &[(1, &M2), (1, &L2)]),
    made("NK4", &[], &[(1, &N2), (1, &K2)]),
    made("2SMK4", &[], &[(2, &S2), (1, &M2), (-1, &K2)]),
    made("MT4", &[], &[(1, &M2), (1, &T2)]),
    made("MS4", &[], &[(1, &M2), (1, &S2)]),
    made("MR4", &[], &[(1, &M2), (1, &R2)]),
    made("MK4", &[], &[(1, &M2), (1, &K2)]),
    made("2SNM4", &[], &[(2, &S2), (1, &N2), (-1, &M2)]),
    made("2MSN4", &[], &[(2, &M2), (1, &S2), (-1, &N2)]),
    made("SL4", &[], &[(1, &S2), (1, &L2)]),
    made("ST4", &[], &[(1, &S2), (1, &T2)]),
    made("S4", &[], &[(2, &S2)]),
    made("SK4", &[], &[(1, &S2), (1, &K2)]),
    made("K4", &[], &[(2, &K2)]),
    made("3SM4", &[], &[(3, &S2), (-1, &M2)]),
    made("2SKM4", &[], &[(2, &S2), (1, &K2), (-1, &M2)]),
    made("MNO5", &[], &[(1, &M2), (1, &N2), (1, &O1)]),
    made("2MQ5", &[], &[(2, &M2), (1, &Q1)]),
    made("2MO5", &[], &[(2, &M2), (1, &O1)]),
    made("3MK5", &[], &[(3, &M2), (-1, &K1)]),
    made("3MP5", &[], &[(3, &M2), (-1, &P1)]),
    made("NSO5", &[], &[(1, &N2), (1, &S2), (1, &O1)]),
    made("MNK5", &[], &[(1, &M2), (1, &N2), (1, &K1)]),
    made("MSO5", &[], &[(1, &M2), (1, &S2), (1, &O1)]),
    made("2MP5", &[], &[(2, &M2), (1, &P1)]),
    made("2MS5", &[], &[(2, &M2), (1, &S1)]),
    made("2MK5", &[], &[(2, &M2), (1, &K1)]),
    made("3MO5", &[], &[(3, &M2), (-1, &O1)]),
    made("MSP5", &[], &[(1, &M2), (1, &S2), (1, &P1)]),
    made("MSK5", &[], &[(1, &M2), (1, &S2), (1, &K1)]),
    made("3KM5", &[], &[(3, &K1), (1, &M2)]),
    made("2SP5", &[], &[(2, &S2), (1, &P1)]),
    made("2SK5", &[], &[(2, &S2), (1, &K1)]),
    made("3MNK6", &[], &[(3, &M2), (1, &N2), (-1, &K2)]),
    made("3MNS6", &[], &[(3, &M2), (1, &N2), (-1, &S2)]),
    made("2NM6", &[], &[(2, &N2), (1, &M2)]),
    made("4MK6", &[], &[(4, &M2), (-1, &K2)]),
    made("4MS6", &[], &[(4, &M2), (-1, &S2)]),
    made("2MSNK6", &[], &[(2, &M2), (1, &S2), (1, &N2), (-1, &K2)]),
    made("2MN6", &[], &[(2, &M2), (1, &N2)]),
    made("2MNU6", &[], &[(2, &M2), (1, &NU2)]),
    made("3MSK6", &[], &[(3, &M2), (1, &S2), (-1, &K2)]),
    made("M6", &[], &[(3, &M2)]),
    made("MSN6", &[], &[(1, &M2), (1, &S2), (1, &N2)]),
    made("MNK6", &[], &[(1, &M2), (1, &N2), (1, &K2)]),
    made("4MN6", &[], &[(4, &M2), (-1, &N2)]),
    made("2ML6", &[], &[(2, &M2), (1, &L2)]),
    made("MKNU6", &[], &[(1, &M2), (1, &K2), (1, &NU2)]),
    made("2(MS)K6", &[], &[(2, &M2), (2, &S2), (-1, &K2)]),
    made("2MT6", &[], &[(2, &M2), (1, &T2)]),
    made("2MS6", &[], &[(2, &M2), (1, &S2)]),
    made("2MK6", &[], &[(2, &M2), (1, &K2)]),
    made("2SN6", &[], &[(2, &S2), (1, &N2)]),
    made("3MSN6", &[], &[(3, &M2), (1, &S2), (-1, &N2)]),
    made("MSL6", &[], &[(1, &M2), (1, &S2), (1, &L2)]),
    made("NSK6", &["SNK6"], &[(1, &N2), (1, &S2), (1, &K2)]),
    made("MKL6", &[], &[(1, &M2), (1, &K2), (1, &L2)]),
    made("MST6", &[], &[(1, &M2), (1, &S2), (1, &T2)]),
    made("2SM6", &[], &[(2, &S2), (1, &M2)]),
    made("MSK6", &[], &[(1, &M2), (1, &S2), (1, &K2)]),
    made("S6", &[], &[(3, &S2)]),
    made("2MNO7", &[], &[(2, &M2), (1, &N2), (1, &O1)]),
    made("3MO7", &[], &[(3, &M2), (1, &O1)]),
    made("2NMK7", &[], &[(2, &N2), (1, &M2), (1, &K1)]),
    made("M7", &[], &[(3, &M2), (1, &M1)]),
    made("2MNK7", &[], &[(2, &M2), (1, &N2), (1, &K1)]),
    made("2MSO7", &[], &[(2, &M2), (1, &S2), (1, &O1)]),
    made("3MK7", &[], &[(3, &M2), (1, &K1)]),
    made("MSKO7", &[], &[(1, &M2), (1, &S2), (1, &K2), (1, &O1)]),
    made("2MSK7", &[], &[(2, &M2), (1, &S2), (1, &K1)]),
    made("2(MN)8", &[], &[(2, &M2), (2, &N2)]),
    made("3MN8", &[], &[(3, &M2), (1, &N2)]),
    made("3MNU8", &[], &[(3, &M2), (1, &NU2)]),
    made("M8", &[], &[(4, &M2)]),
    made("2MSN8", &[], &[(2, &M2), (1, &S2), (1, &N2)]),
    made("3ML8", &[], &[(3, &M2), (1, &L2)]),
    made("2MNK8", &[], &[(2, &M2), (1, &N2), (1, &K2)]),
    made("3MT8", &[], &[(3, &M2), (1, &T2)]),
    made("3MS8", &[], &[(3, &M2), (1, &S2)]),
    made("3MK8", &[], &[(3, &M2), (1, &K2)]),
    made("2SMN8", &[], &[(2, &S2), (1, &M2), (1, &N2)]),
    made("MSNK8", &[], &[(1, &M2), (1, &S2), (1, &N2), (1, &K2)]),
    made("2MSL8", &[], &[(2, &M2), (1, &S2), (1, &L2)]),
    made("2(MS)8", &[], &[(2, &M2), (2, &S2)]),
    made("2MSK8", &[], &[(2, &M2), (1, &S2), (1, &K2)]),
    made("3SM8", &[], &[(3, &S2), (1, &M2)]),
    made("2SMK8", &[], &[(2, &S2), (1, &M2), (1, &K2)]),
    made("S8", &[], &[(4, &S2)]),
    made("2(MN)K9", &[], &[(2, &M2), (2, &N2), (1, &K1)]),
    made("3MNK9", &[], &[(3, &M2), (1, &N2), (1, &K1)]),
    made("4MK9", &[], &[(4, &M2), (1, &K1)]),
    made("3MSK9", &[], &[(3, &M2), (1, &S2), (1, &K1)]),
    made("4MN10", &[], &[(4, &M2), (1, &N2)]),
    made("M10", &[], &[(5, &M2)]),
    made("3MSN10", &[], &[(3, &M2), (1, &S2), (1, &N2)]),
    made("4MS10", &[], &[(4, &M2), (1, &S2)]),
    made("4MK10", &[], &[(4, &M2), (1, &K2)]),
    made("2(MS)N10", &[], &[(2, &M2), (2, &S2), (1, &N2)]),
    made("2MNSK10", &[], &[(2, &M2), (1, &N2), (1, &S2), (1, &K2)]),
    made("3M2S10", &[], &[(3, &M2), (2, &S2)]),
    made("3MSK10", &[], &[(3, &M2), (1, &S2), (1, &K2)]),
    made("4MSK11", &[], &[(4, &M2), (1, &S2), (1, &K1)]),
    made("5MN12", &[], &[(5, &M2), (1, &N2)]),
    made("M12", &[], &[(6, &M2)]),
    made("4MSN12", &[], &[(4, &M2), (1, &S2), (1, &N2)]),
    made("3MNKS12", &[], &[(3, &M2), (1, &N2), (1, &K2), (1, &S2)]),
    made("5MS12", &[], &[(5, &M2), (1, &S2)]),
    made("4M2S12", &[], &[(4, &M2), (2, &S2)]),
    made("5MSN14", &[], &[(5, &M2), (1, &S2), (1, &N2)]),
    made("M14", &[], &[(7, &M2)]),
];
