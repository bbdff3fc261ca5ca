//! Makes names: invented roots with the usual words of a chart, none twice on a chart.

use std::collections::BTreeSet;

use super::dice::Dice;

/// Beginnings of names.
const FIRST: [&str; 44] = [
    "Bran", "Bes", "Cad", "Cor", "Dav", "Del", "Ers", "Eld", "Far", "Fos", "Gal", "Gor", "Hal",
    "Hesk", "Ill", "Inn", "Jas", "Kes", "Kol", "Lav", "Lor", "Mel", "Mun", "Nev", "Nor", "Oll",
    "Osk", "Pad", "Pol", "Quel", "Ras", "Rov", "Sav", "Sker", "Tal", "Tev", "Ulv", "Ust", "Vaer",
    "Ves", "Wad", "Wol", "Yad", "Yor",
];

/// Endings of names.
const LAST: [&str; 50] = [
    "abeth", "adan", "agan", "amond", "anish", "arrow", "assa", "atter", "avel", "ebra", "egan",
    "ellick", "emba", "endle", "erra", "essock", "etha", "illan", "imber", "inna", "irrow",
    "issel", "ivar", "ogan", "ollin", "omber", "orrel", "ossa", "ottle", "ovan", "ullow", "umber",
    "unna", "urrow", "ussel", "ock", "ow", "um", "isk", "awen", "eth", "arn", "elm", "und", "ild",
    "ost", "ister", "orna", "elda", "aran",
];

/// Words that a name can be made with; `*` stands for the root, `~` for the root joined on.
pub(super) mod words {
    pub(crate) const SETTLEMENT: &[&str] = &["~haven", "Port *", "~wick", "* Quay", "~stead"];
    pub(crate) const ISLAND: &[&str] = &["*", "*", "~ay", "* Island", "~ey"];
    pub(crate) const ISLET: &[&str] = &["* Holm", "* Isle", "Little *", "~ay", "* Holm"];
    pub(crate) const SOUND: &[&str] = &["Sound of *", "* Sound", "* Roads", "* Deeps"];
    pub(crate) const HEADLAND: &[&str] = &["* Head", "* Ness", "* Point", "Point of *", "* Snout"];
    pub(crate) const BAY: &[&str] = &["* Bay", "* Bight", "* Cove", "Bay of *", "* Pool"];
    pub(crate) const INLET: &[&str] = &["* Water", "* Voe", "* Reach", "* Inlet", "* Creek"];
    pub(crate) const NARROWS: &[&str] = &["* Narrows", "* Gut", "The * Gates", "* Sluice"];
    pub(crate) const SKERRY: &[&str] =
        &["* Skerry", "* Skerries", "* Rock", "* Stacks", "* Ledge", "* Baas"];
    pub(crate) const SHOAL: &[&str] = &["* Bank", "* Shoal", "* Ground", "* Bar"];
    pub(crate) const SUNKEN: &[&str] = &["* Rock", "* Baa", "* Breaker", "* Ledge"];
    pub(crate) const HILL: &[&str] = &["* Fell", "* Hill", "* Cap", "* Law", "* Pike"];
    pub(crate) const SAND: &[&str] = &["* Strand", "* Sands", "* Beach"];
    pub(crate) const SHINGLE: &[&str] = &["* Ayre", "* Shingle", "* Stones"];
    pub(crate) const MUD: &[&str] = &["* Flats", "* Ooze", "* Saltings"];
    pub(crate) const COVE: &[&str] = &["* Geo", "* Gully", "* Landing"];
    pub(crate) const SLIP: &[&str] = &["* slip"];
    pub(crate) const RACE: &[&str] = &["* Race", "* Overfalls", "* Tumble"];
}

/// A name and the root that others may share.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Name {
    pub(super) root: String,
    pub(super) full: String,
}

/// Gives names and remembers them.
#[derive(Debug)]
pub(super) struct Names {
    dice: Dice,
    roots: BTreeSet<String>,
    given: BTreeSet<String>,
}

impl Names {
    pub(super) fn new(seed: u64) -> Self {
        Self { dice: Dice::new(seed, "names"), roots: BTreeSet::new(), given: BTreeSet::new() }
    }

    /// A new name in one of the forms, with a root that no name on the chart has yet.
    pub(super) fn name(&mut self, forms: &[&'static str]) -> Name {
        // Far more roots than a chart has names: a fresh one is soon found.
        loop {
            let root = format!("{}{}", self.dice.pick(&FIRST), self.dice.pick(&LAST));
            if self.roots.insert(root.clone()) {
                let full = self.join(&root, forms);
                if self.given.insert(full.clone()) {
                    return Name { root, full };
                }
            }
        }
    }

    /// A name that shares another's root, in the first of the forms that is not given yet.
    pub(super) fn kin(&mut self, root: &str, forms: &[&'static str]) -> String {
        let mut full = self.join(root, forms);
        let mut rest = forms.iter();
        while !self.given.insert(full.clone()) {
            match rest.next() {
                Some(form) => full = self.join(root, &[*form]),
                None => return self.name(forms).full,
            }
        }
        full
    }

    fn join(&mut self, root: &str, forms: &[&'static str]) -> String {
        let form = self.dice.pick(forms);
        match form.strip_prefix('~') {
            Some(tail) => format!("{}{tail}", stem(root, tail)),
            None => form.replace('*', root),
        }
    }
}

/// A root without its last syllable's end, so that joined names can be said; whole if it is short.
fn stem<'a>(root: &'a str, tail: &str) -> &'a str {
    let vowel = |c: char| "aeiou".contains(c);
    let cut = root.trim_end_matches(|c| !vowel(c)).trim_end_matches(vowel);
    if cut.len() < 5 {
        return root;
    }
    // One consonant before another: Savella gives Savellay, but Savelhaven.
    let mut last = cut.chars().rev();
    let double = last.next() == last.next();
    if double && !tail.starts_with(vowel) { &cut[..cut.len() - 1] } else { cut }
}
