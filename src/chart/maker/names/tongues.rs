//! Sounds of invented names: each coast speaks one of three tongues.

use crate::maker::wishes::Character;

/// The beginnings and the endings of a tongue's roots.
#[derive(Debug)]
pub(super) struct Tongue {
    pub(super) first: &'static [&'static str],
    pub(super) last: &'static [&'static str],
}

/// Roots and joined names that are not given: they are names of real places, or have one in them.
pub(super) const STRUCK: &[&str] = &[
    "Aldingle",
    "Ambarray",
    "Askane",
    "Barunden",
    "Blanewhaven",
    "Caldingle",
    "Chebarray",
    "Corundey",
    "Cranewhaven",
    "Davarnay",
    "Delarney",
    "Delerwick",
    "Dorunden",
    "Embarray",
    "Engighaven",
    "Farundey",
    "Fennewhaven",
    "Fjalandra",
    "Fjalaskay",
    "Galarney",
    "Galerwick",
    "Gorundey",
    "Grisandray",
    "Grisotra",
    "Halarney",
    "Halerwick",
    "Haskomere",
    "Havanay",
    "Hembarray",
    "Heskaney",
    "Illarney",
    "Illerwick",
    "Jordingle",
    "Kembarray",
    "Kolarney",
    "Kolerwick",
    "Lambarray",
    "Langighaven",
    "Lavarnay",
    "Lindingle",
    "Lorundey",
    "Melarney",
    "Melerwick",
    "Mordingle",
    "Nevarnay",
    "Nevisk",
    "Nevissel",
    "Nevister",
    "Norundey",
    "Ollarney",
    "Ollerwick",
    "Orforden",
    "Oskaney",
    "Pendingle",
    "Polarney",
    "Polerwick",
    "Quanewhaven",
    "Quelarney",
    "Quelerwick",
    "Redingle",
    "Rovarnay",
    "Savarnay",
    "Selmolden",
    "Skagendra",
    "Skagenna",
    "Skagighaven",
    "Skeriskay",
    "Skerundey",
    "Skjolandra",
    "Stenewhaven",
    "Svalandra",
    "Svalaskay",
    "Talarney",
    "Talerwick",
    "Tambarray",
    "Tevarnay",
    "Thorunden",
    "Tysandray",
    "Tysotra",
    "Ulleriskay",
    "Ullerwick",
    "Ulvarnay",
    "Undingle",
    "Vaeriskay",
    "Vaerundey",
    "Vardoda",
    "Vardokken",
    "Vardolla",
    "Vardomma",
    "Vardonda",
    "Vardoskel",
    "Vardotra",
    "Vardovik",
    "Wendingle",
    "Wolarney",
    "Wolerwick",
    "Yorundey",
];

/// Of islands.
const OUTER: Tongue = Tongue {
    first: &[
        "Bran", "Bes", "Cad", "Cor", "Dav", "Del", "Ers", "Eld", "Far", "Fos", "Gal", "Gor", "Hal",
        "Hesk", "Ill", "Inn", "Jas", "Kes", "Kol", "Lav", "Lor", "Mel", "Mun", "Nev", "Nor", "Oll",
        "Osk", "Pad", "Pol", "Quel", "Ras", "Rov", "Sav", "Sker", "Tal", "Tev", "Ulv", "Ust",
        "Vaer", "Ves", "Wad", "Wol", "Yad", "Yor",
    ],
    last: &[
        "abeth", "adan", "agan", "amond", "anish", "arrow", "assa", "atter", "avel", "ebra",
        "egan", "ellick", "emba", "endle", "erra", "essock", "etha", "illan", "imber", "inna",
        "irrow", "issel", "ivar", "ogan", "ollin", "omber", "orrel", "ossa", "ottle", "ovan",
        "ullow", "umber", "unna", "urrow", "ussel", "ock", "ow", "um", "isk", "awen", "eth", "arn",
        "elm", "und", "ild", "ost", "ister", "orna", "elda", "aran",
    ],
};

/// Of rocks and lochs.
const NORTHERN: Tongue = Tongue {
    first: &[
        "Ask", "Bjar", "Bryd", "Dyr", "Eng", "Fjal", "Flek", "Gris", "Grun", "Hav", "Hjel", "Hun",
        "Kald", "Klov", "Krok", "Lang", "Lomv", "Mork", "Myr", "Nakk", "Odd", "Ramn", "Rod", "Sel",
        "Skag", "Skjol", "Slett", "Snar", "Stav", "Stein", "Sval", "Tarv", "Tjel", "Torv", "Tys",
        "Uller", "Vard", "Vest", "Yttr", "Orn",
    ],
    last: &[
        "aldra", "andra", "ane", "arra", "askel", "avra", "ebak", "edal", "ekil", "ella", "emar",
        "endra", "enna", "eskar", "etta", "iand", "idra", "igen", "ilde", "inda", "ingar", "irra",
        "isker", "iva", "oda", "okken", "olla", "omma", "onda", "oskel", "otra", "ovik", "uder",
        "ulla", "umma", "undra", "unge", "urd", "uska", "uva",
    ],
};

/// Of low and of steep mainlands.
const SOUTHERN: Tongue = Tongue {
    first: &[
        "Ald", "Amb", "Bar", "Bel", "Blan", "Bow", "Cald", "Cheb", "Clav", "Cran", "Dell", "Dor",
        "Emb", "Fenn", "Gav", "Gris", "Hask", "Hemb", "Jord", "Kemb", "Lamb", "Lind", "Marl",
        "Mord", "Nay", "Orf", "Pend", "Pris", "Quan", "Red", "Sall", "Selm", "Shev", "Sten",
        "Tamb", "Thor", "Und", "Vell", "Wend", "Wys",
    ],
    last: &[
        "aby", "acre", "aden", "alow", "amer", "anby", "arden", "arrick", "astle", "avin", "eby",
        "edon", "eldon", "emere", "endon", "erby", "esden", "ethorne", "eworth", "iden", "igan",
        "illow", "imere", "ingle", "ispen", "istow", "oden", "okeby", "olden", "omere", "onby",
        "orden", "osten", "otham", "ovel", "udden", "ulby", "umble", "unden", "uthorn",
    ],
};

impl Tongue {
    /// The tongue of a coast.
    pub(super) fn of(character: Character) -> &'static Tongue {
        match character {
            Character::Mixed => &OUTER,
            Character::Skerries | Character::SeaLochs => &NORTHERN,
            Character::Lagoon | Character::Cliffs | Character::Estuary => &SOUTHERN,
        }
    }

    /// All of them.
    #[cfg(test)]
    pub(super) const ALL: [&'static Tongue; 3] = [&OUTER, &NORTHERN, &SOUTHERN];
}
