//! No name that can be made is that of a real place, shown by making them all.

use std::collections::BTreeSet;
use std::sync::OnceLock;

use super::tongues::{STRUCK, Tongue};
use super::{in_form, words};

/// Names of real places, in small letters.
struct Real {
    /// Of five letters or more, which must not occur anywhere in a name.
    long: BTreeSet<String>,
    /// Shorter ones and such of several words, which must not be a word or words of it.
    whole: BTreeSet<String>,
    longest: usize,
}

impl Real {
    fn new() -> Self {
        let lines = include_str!("real.txt").lines().filter(|line| !line.starts_with('#'));
        let names: BTreeSet<String> =
            lines.flat_map(|line| line.split(", ")).map(str::to_lowercase).collect();
        let is_long = |name: &String| name.len() >= 5 && !name.contains(' ');
        let (long, whole): (BTreeSet<String>, BTreeSet<String>) =
            names.into_iter().partition(is_long);
        let longest = long.iter().map(String::len).max().unwrap();
        Self { long, whole, longest }
    }

    /// Read once.
    fn all() -> &'static Real {
        static ALL: OnceLock<Real> = OnceLock::new();
        ALL.get_or_init(Real::new)
    }

    /// The real place whose name a made word is or has in it.
    fn within(&self, word: &str) -> Option<&str> {
        let word = word.to_lowercase();
        let parts = (0..word.len()).flat_map(|from| {
            let most = self.longest.min(word.len() - from);
            (5..=most).map(move |length| (from, from + length))
        });
        let mut parts = parts.filter_map(|(from, to)| word.get(from..to));
        let part = parts.find_map(|part| self.long.get(part));
        part.or_else(|| self.whole.get(&word)).map(String::as_str)
    }
}

/// The real place whose name a name is, or has in one of its words.
pub(in crate::maker) fn real_within(name: &str) -> Option<&'static str> {
    let real = Real::all();
    static WORDS: OnceLock<BTreeSet<&str>> = OnceLock::new();
    let words = || words::all_forms().into_iter().flat_map(|form| form.split(' ')).collect();
    let trade = WORDS.get_or_init(words);
    let made =
        name.split(' ').filter(|word| !trade.contains(word)).find_map(|word| real.within(word));
    made.or_else(|| real.whole.get(&name.to_lowercase()).map(String::as_str))
}

fn roots(tongue: &Tongue) -> impl Iterator<Item = String> {
    let joined = |first: &&'static str| {
        tongue.last.iter().map(|last| format!("{first}{last}")).collect::<Vec<_>>()
    };
    tongue.first.iter().flat_map(joined)
}

#[test]
fn no_name_that_can_be_made_is_or_holds_that_of_a_real_place() {
    let real = Real::all();
    assert!(real.long.len() + real.whole.len() >= 700, "the list is cut short");
    let forms = words::all_forms();
    let (tails, loose): (Vec<&str>, Vec<&str>) =
        forms.into_iter().partition(|f| f.starts_with('~'));
    let mut struck = BTreeSet::new();
    for root in Tongue::ALL.into_iter().flat_map(roots) {
        if real.within(&root).is_some() {
            struck.insert(root);
            continue;
        }
        let joined = tails.iter().map(|tail| in_form(&root, tail));
        struck.extend(joined.filter(|name| real.within(name).is_some()));
    }
    let listed: BTreeSet<String> = STRUCK.iter().map(|root| (*root).to_owned()).collect();
    assert_eq!(struck, listed, "what is struck out is not what must be");
    // What stands beside a root is a word of the trade, the same beside every root: only as a whole
    // could it be taken for a place, unlike the end of "Skerry".
    for form in loose {
        for word in form.split(' ').filter(|word| *word != "*") {
            let word = word.to_lowercase();
            assert!(!real.whole.contains(&word) && !real.long.contains(&word), "{form}");
        }
    }
}

#[test]
fn a_real_name_is_found_whole_and_within_others() {
    let real = Real::all();
    for (word, found) in [
        ("Iona", Some("iona")),
        ("Iondra", None),
        ("Bergenay", Some("bergen")),
        ("Nyfundy", Some("fundy")),
        ("Manadra", None),
        ("Man", Some("man")),
    ] {
        assert_eq!(real.within(word), found, "{word}");
    }
}
