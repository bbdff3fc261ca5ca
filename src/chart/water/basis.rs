//! What a port's tide is told from, where that comes from and how old it is.

use jiff::civil::Date;

/// Where a port's constants, differences or table come from, and of which years they are.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Basis {
    /// Where they come from, in the words of the chart or the port file; may be empty.
    pub source: String,
    /// The first and the last year that they are of, if that is stated.
    pub years: Option<(i16, i16)>,
    /// Whether they are invented, with the place.
    pub invented: bool,
}

impl Basis {
    /// The same in words, their age counted to a date: `invented`, `no source is stated`, or `of 1998
    /// to 2004, 22 years before this date; source: the port authority`.
    pub fn said(&self, on: Date) -> String {
        if self.invented {
            return "invented".to_owned();
        }
        let source = self.source.trim_end_matches('.');
        match (self.years, source) {
            (None, "") => "no source is stated".to_owned(),
            (None, source) => format!("source: {source}; their age is not stated"),
            (Some(years), "") => format!("{}; no source is stated", aged(years, on)),
            (Some(years), source) => format!("{}; source: {source}", aged(years, on)),
        }
    }
}

/// `of 1998 to 2004, 22 years before this date`.
fn aged((first, last): (i16, i16), on: Date) -> String {
    let of = if first == last { format!("of {first}") } else { format!("of {first} to {last}") };
    let years = |count: i16| match count {
        1 => "a year".to_owned(),
        count => format!("{count} years"),
    };
    match on.year() {
        year if year > last => format!("{of}, {} before this date", years(year - last)),
        year if year < first => format!("{of}, {} after this date", years(first - year)),
        _ => of,
    }
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;
    use rstest::rstest;

    use super::*;

    #[rstest]
    #[case("", None, "no source is stated")]
    #[case("the office.", None, "source: the office; their age is not stated")]
    #[case("", Some((1998, 2004)), "of 1998 to 2004, 22 years before this date; no source is stated")]
    #[case("the office", Some((2025, 2025)), "of 2025, a year before this date; source: the office")]
    #[case("the office", Some((2026, 2026)), "of 2026; source: the office")]
    #[case("the office", Some((2028, 2029)), "of 2028 to 2029, 2 years after this date; source: the office")]
    fn source_and_age_are_said(
        #[case] source: &str,
        #[case] years: Option<(i16, i16)>,
        #[case] wanted: &str,
    ) {
        let mut basis = Basis { source: source.to_owned(), years, invented: false };
        assert_eq!(basis.said(date(2026, 6, 14)), wanted);
        basis.invented = true;
        assert_eq!(basis.said(date(2026, 6, 14)), "invented");
    }
}
