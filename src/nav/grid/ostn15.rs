//! OSTN15, the national grid shift that defines the British National Grid from ETRS89.

use std::io::Read;
use std::sync::OnceLock;

use flate2::read::ZlibDecoder;

/// Nodes from west to east, 1 km apart.
const COLUMNS: usize = 701;
/// Nodes from south to north.
const ROWS: usize = 1251;
/// Between nodes, in metres.
const STEP: f64 = 1000.0;

/// Written by the example `pack_ostn15`, which describes it, from the agency's own file.
///
/// © 2016 Ordnance Survey and the Ministry of Defence; OSTN15-LICENCE.txt beside it is its
/// BSD-2-Clause licence.
static PACKED: &[u8] = include_bytes!("ostn15.zlib");

/// The shifts of easting and northing at all nodes of OSTN15.
///
/// Nodes cover 0 to 700 km east and 0 to 1,250 km north, and all of them are filled, also far
/// offshore and over Ireland and the continent, where the agency extrapolated: along the coast
/// and within some tens of kilometres of it the shift is the definition of the national grid,
/// farther out it is a smooth continuation.
pub(super) struct Ostn15 {
    /// East and north in whole millimetres, from the south-west node eastwards, row by row.
    millimetres: Vec<[i32; 2]>,
}

/// A shift from ETRS89 on the grid's projection to the British National Grid, in metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Shift {
    pub(super) east: f64,
    pub(super) north: f64,
}

impl Ostn15 {
    /// The published table.
    ///
    /// It unpacks to 7 MB in some hundredths of a second, so that is done once, when a
    /// position is first asked for, and kept: the cell never changes once it is filled, and
    /// holds what any caller would unpack for itself. It is nothing only if the program's own
    /// copy were damaged, and then callers go by seven parameters and say so.
    pub(super) fn published() -> Option<&'static Ostn15> {
        static TABLE: OnceLock<Option<Ostn15>> = OnceLock::new();
        TABLE.get_or_init(|| Ostn15::unpack(PACKED)).as_ref()
    }

    fn unpack(packed: &[u8]) -> Option<Ostn15> {
        let mut bytes = Vec::new();
        ZlibDecoder::new(packed).read_to_end(&mut bytes).ok()?;
        let mut bytes = bytes.into_iter();
        let east = unpredicted(&mut bytes)?;
        let north = unpredicted(&mut bytes)?;
        let millimetres = east.into_iter().zip(north).map(|(east, north)| [east, north]).collect();
        bytes.next().is_none().then_some(Ostn15 { millimetres })
    }

    /// The shift at a point of ETRS89 on the grid's projection, in metres; nothing outside
    /// the nodes.
    pub(super) fn shift(&self, easting: f64, northing: f64) -> Option<Shift> {
        let (column, along) = between_nodes(easting, COLUMNS)?;
        let (row, up) = between_nodes(northing, ROWS)?;
        let south_west = row * COLUMNS + column;
        let [a, b] = *self.millimetres.get(south_west..)?.first_chunk()?;
        let [d, c] = *self.millimetres.get(south_west + COLUMNS..)?.first_chunk()?;
        // Bilinear, as the agency's user guide to OSTN15 and OSGM15 has it.
        let mix = |i: usize| {
            let [a, b, c, d] = [a, b, c, d].map(|node: [i32; 2]| f64::from(node[i]));
            let south = a + (b - a) * along;
            let north = d + (c - d) * along;
            (south + (north - south) * up) / 1000.0
        };
        Some(Shift { east: mix(0), north: mix(1) })
    }

    /// The shift there, or at the nearest point within the nodes: a first guess.
    pub(super) fn shift_near(&self, easting: f64, northing: f64) -> Shift {
        let within = |metres: f64, nodes: usize| metres.clamp(0.0, (nodes - 1) as f64 * STEP);
        self.shift(within(easting, COLUMNS), within(northing, ROWS))
            .unwrap_or(Shift { east: 0.0, north: 0.0 })
    }
}

/// The node before a coordinate and the part of a step beyond it.
fn between_nodes(metres: f64, nodes: usize) -> Option<(usize, f64)> {
    let steps = metres / STEP;
    // Fewer than 2,000 nodes, which f64 and usize both hold.
    let last = (nodes - 1) as f64;
    if !(0.0..=last).contains(&steps) {
        return None;
    }
    // The last node belongs to the square before it.
    let node = (steps as usize).min(nodes - 2);
    Some((node, steps - node as f64))
}

/// One component of all nodes, from what its prediction by the neighbours before left.
fn unpredicted(bytes: &mut impl Iterator<Item = u8>) -> Option<Vec<i32>> {
    let mut nodes: Vec<i32> = Vec::with_capacity(COLUMNS * ROWS);
    for node in 0..COLUMNS * ROWS {
        let in_row = node % COLUMNS > 0;
        let before = |steps: usize, inside: bool| {
            let index = node.checked_sub(steps).filter(|_| inside);
            index.and_then(|index| nodes.get(index)).copied().unwrap_or(0)
        };
        let (west, south) = (before(1, in_row), before(COLUMNS, true));
        let south_west = before(COLUMNS + 1, in_row);
        // Wrapping, so that a damaged table is wrong and no more.
        let predicted = west.wrapping_add(south).wrapping_sub(south_west);
        nodes.push(predicted.wrapping_add(zigzag(bytes)?));
    }
    Some(nodes)
}

/// The next number of the table.
fn zigzag(bytes: &mut impl Iterator<Item = u8>) -> Option<i32> {
    let mut number: u32 = 0;
    for shift in (0..28).step_by(7) {
        let byte = bytes.next()?;
        number |= u32::from(byte & 0x7f) << shift;
        if byte < 0x80 {
            return Some((number >> 1).cast_signed() ^ -(number & 1).cast_signed());
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The agency's file itself: its first, some middle and its last line.
    #[test]
    fn nodes_are_the_agencys() {
        let table = Ostn15::published().expect("the packed table unpacks");
        for (easting, northing, east, north) in [
            (0.0, 0.0, 90.750, -82.020),
            (1_000.0, 0.0, 90.764, -82.015),
            (699_000.0, 1_250_000.0, 109.183, -53.054),
            (700_000.0, 1_250_000.0, 109.209, -53.064),
        ] {
            assert_eq!(table.shift(easting, northing), Some(Shift { east, north }));
        }
    }

    #[test]
    fn no_shift_beyond_the_nodes() {
        let table = Ostn15::published().expect("the packed table unpacks");
        for (easting, northing) in
            [(-0.1, 0.0), (700_000.1, 0.0), (0.0, 1_250_000.1), (0.0, -1.0), (f64::NAN, 0.0)]
        {
            assert_eq!(table.shift(easting, northing), None, "{easting} {northing}");
        }
    }

    #[test]
    fn a_damaged_table_is_no_table() {
        assert!(Ostn15::unpack(&PACKED[..PACKED.len() / 2]).is_none());
        assert!(Ostn15::unpack(b"no zlib stream").is_none());
    }
}
