//! Makes names: invented roots with the usual words of a chart, none twice on a chart.
//!
//! No name is that of a well-known real place, nor has one in it: tests go through every root and
//! every word against the list beside them (`names/real.txt`).

#[cfg(test)]
mod tests;
mod tongues;
pub(super) mod words;

use std::collections::BTreeSet;

use super::dice::Dice;
use super::wishes::Character;
#[cfg(test)]
pub(super) use tests::real_within;
use tongues::{STRUCK, Tongue};
use words::Words;

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
    tongue: &'static Tongue,
    pub(super) words: &'static Words,
    roots: BTreeSet<String>,
    given: BTreeSet<String>,
}

impl Names {
    pub(super) fn new(seed: u64, character: Character) -> Self {
        let dice = Dice::new(seed, "names");
        let (tongue, words) = (Tongue::of(character), Words::of(character));
        Self { dice, tongue, words, roots: BTreeSet::new(), given: BTreeSet::new() }
    }

    /// A new name in one of the forms, with a root that no name on the chart has yet.
    pub(super) fn name(&mut self, forms: &[&'static str]) -> Name {
        // Far more roots than a chart has names: a fresh one is soon found.
        loop {
            let Tongue { first, last } = self.tongue;
            let root = format!("{}{}", self.dice.pick(first), self.dice.pick(last));
            if !STRUCK.contains(&root.as_str()) && self.roots.insert(root.clone()) {
                let full = self.join(&root, forms);
                if !STRUCK.contains(&full.as_str()) && self.given.insert(full.clone()) {
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
        in_form(root, form)
    }
}

/// A root in a form.
fn in_form(root: &str, form: &str) -> String {
    match form.strip_prefix('~') {
        Some(tail) => format!("{}{tail}", stem(root, tail)),
        None => form.replace('*', root),
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
