//! How many colours the terminal shows, as the environment says.

use std::env;

use crate::theme::Colours;

/// The colours of the terminal in which the program runs.
pub(super) fn of_environment() -> Colours {
    of(|name| env::var(name).ok())
}

/// `NO_COLOR` set to anything means none; `COLORTERM` promises all; else `TERM` says it.
fn of(variable: impl Fn(&str) -> Option<String>) -> Colours {
    let value = |name: &str| variable(name).unwrap_or_default().to_lowercase();
    let (term, promise) = (value("TERM"), value("COLORTERM"));
    if !value("NO_COLOR").is_empty() || term == "dumb" {
        Colours::None
    } else if promise == "truecolor" || promise == "24bit" || term.ends_with("-direct") {
        Colours::True
    } else if term.contains("256color") {
        Colours::Indexed
    } else {
        Colours::Sixteen
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn colours(set: &[(&str, &str)]) -> Colours {
        let find = |name: &str| set.iter().find(|(n, _)| *n == name).map(|(_, v)| (*v).to_owned());
        of(find)
    }

    #[test]
    fn the_environment_says_how_many() {
        assert_eq!(colours(&[("TERM", "xterm-256color")]), Colours::Indexed);
        assert_eq!(colours(&[("TERM", "xterm"), ("COLORTERM", "truecolor")]), Colours::True);
        assert_eq!(colours(&[("TERM", "xterm-direct")]), Colours::True);
        assert_eq!(colours(&[("TERM", "linux")]), Colours::Sixteen);
        assert_eq!(colours(&[]), Colours::Sixteen);
        assert_eq!(colours(&[("TERM", "dumb")]), Colours::None);
    }

    #[test]
    fn no_color_wins_when_it_is_not_empty() {
        let no = |value| [("COLORTERM", "truecolor"), ("NO_COLOR", value)];
        assert_eq!(colours(&no("1")), Colours::None);
        assert_eq!(colours(&no("")), Colours::True);
    }
}
