//! Constituents: the regular waves that a tide is the sum of.

use std::fmt;

use jiff::{SignedDuration, Timestamp};

use super::astro::Angles;
use super::node::{Factor, Node, Orbit};
use super::table::{MADE, OWN};
use crate::OutOfRange;
use crate::moment::{DateOutside, seconds};

/// A row of the table.
#[derive(Debug)]
pub(super) struct Entry {
    pub(super) name: &'static str,
    pub(super) also: &'static [&'static str],
    pub(super) kind: Kind,
}

/// Where a constituent comes from.
#[derive(Debug)]
pub(super) enum Kind {
    /// From the motions of moon and sun.
    Own { doodson: [i8; 6], quarters: i8, node: Node },
    /// From others, in shallow water: so many times each, a minus sign for a difference.
    Made(&'static [(i8, &'static Entry)]),
}

/// No constituent of this name.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error(
    "no constituent is called {name:?}; the nearest name is {nearest}, and all are those of the international lists"
)]
pub struct UnknownConstituent {
    /// The name as it was given.
    pub name: String,
    /// The name in the table that is most like it.
    pub nearest: &'static str,
}

/// The name in the table that is most like another: the fewest letters to change, the tide's own
/// before the compound ones.
fn nearest(wanted: &str) -> &'static str {
    let wanted: Vec<char> = wanted.to_ascii_uppercase().chars().take(20).collect();
    let names = OWN.iter().copied().chain(&MADE).flat_map(|entry| {
        std::iter::once(entry.name).chain(entry.also.iter().copied()).map(move |name| (name, entry))
    });
    names.min_by_key(|(name, _)| changes(&wanted, name)).map_or("M2", |(_, entry)| entry.name)
}

/// How many letters are to be put in, taken out or changed to make one text of another
/// (V. I. Levenshtein, 1965); a nought is an O.
fn changes(from: &[char], to: &str) -> usize {
    let alike = |a: char, b: char| a == b || (a == '0' && b == 'O');
    let mut row: Vec<usize> = (0..=from.len()).collect();
    for (number, letter) in to.chars().enumerate() {
        let mut corner = std::mem::replace(&mut row[0], number + 1);
        for (index, other) in from.iter().enumerate() {
            let change = corner + usize::from(!alike(*other, letter.to_ascii_uppercase()));
            corner = row[index + 1];
            row[index + 1] = change.min(row[index] + 1).min(corner + 1);
        }
    }
    row[from.len()]
}

/// One of the constituents of the international lists.
///
/// ```
/// use nav::tide::Constituent;
/// let m2 = Constituent::named("M2").unwrap();
/// // Schureman, table 2: 28.9841042 degrees an hour.
/// assert!((m2.speed().as_degrees_per_hour() - 28.984_104_2).abs() < 1e-7);
/// assert_eq!(m2.doodson_number(), "255.555");
/// ```
#[derive(Clone, Copy)]
pub struct Constituent(&'static Entry);

impl Constituent {
    /// The constituent of a name, in capitals or not.
    ///
    /// # Errors
    /// [`UnknownConstituent`] when the table has no such name.
    pub fn named(name: &str) -> Result<Constituent, UnknownConstituent> {
        let wanted = name.trim();
        let is_it = |entry: &&'static Entry| {
            entry.name.eq_ignore_ascii_case(wanted)
                || entry.also.iter().any(|other| other.eq_ignore_ascii_case(wanted))
        };
        let found = OWN.iter().copied().chain(&MADE).find(is_it);
        found
            .map(Constituent)
            .ok_or_else(|| UnknownConstituent { name: name.to_owned(), nearest: nearest(wanted) })
    }

    /// Every constituent that there is a name for: the tide's own by speed, then the compound ones.
    pub fn all() -> impl Iterator<Item = Constituent> {
        OWN.iter().copied().chain(&MADE).map(Constituent)
    }

    /// Its usual name.
    pub const fn name(self) -> &'static str {
        self.0.name
    }

    /// How often each of Doodson's angles goes into its argument: τ, s, h, p, N′, p₁.
    pub fn doodson(self) -> [i8; 6] {
        match &self.0.kind {
            Kind::Own { doodson, .. } => *doodson,
            Kind::Made(parts) => parts.iter().fold([0; 6], |mut sum, &(times, part)| {
                let own = Constituent(part).doodson();
                sum.iter_mut().zip(own).for_each(|(sum, number)| *sum += times * number);
                sum
            }),
        }
    }

    /// Its Doodson number: the same with 5 added to all but the first, `255.555` for M2. What is
    /// more than 9 or less than 0 stands as a letter, from `A` for 10 up and from `Z` for -1 down.
    pub fn doodson_number(self) -> String {
        let figure = |(place, &number): (usize, &i8)| {
            let figure = if place == 0 { i32::from(number) } else { i32::from(number) + 5 };
            match figure {
                0..=9 => char::from_digit(figure.unsigned_abs(), 10).unwrap_or('?'),
                10.. => char::from_u32('A' as u32 + figure.unsigned_abs() - 10).unwrap_or('?'),
                _ => char::from_u32('Z' as u32 + 1 - figure.unsigned_abs()).unwrap_or('?'),
            }
        };
        let mut text: String = self.doodson().iter().enumerate().map(figure).collect();
        text.insert(3, '.');
        text
    }

    /// Quarter turns that its argument is ahead of the sum of its angles.
    fn quarters(self) -> i32 {
        match &self.0.kind {
            Kind::Own { quarters, .. } => i32::from(*quarters),
            Kind::Made(parts) => {
                let quarters = |&(times, part): &(i8, &'static Entry)| {
                    i32::from(times) * Constituent(part).quarters()
                };
                parts.iter().map(quarters).sum::<i32>()
            }
        }
    }

    /// Its speed, at Schureman's epoch of 1900; it changes by less than 1e-7 degrees an hour until 2100.
    pub fn speed(self) -> AngularSpeed {
        // 1900 January 1.
        AngularSpeed(self.speed_at(-2_208_988_800.0))
    }

    /// In degrees an hour.
    pub(super) fn speed_at(self, seconds: f64) -> f64 {
        Angles::rates(seconds).times(self.doodson())
    }

    /// Its argument V at Greenwich, in degrees, whole turns and all.
    pub(super) fn argument(self, angles: &Angles) -> f64 {
        angles.times(self.doodson()) + 90.0 * f64::from(self.quarters().rem_euclid(4))
    }

    /// Its node factor: for compound ones the product of their parts' factors.
    pub(super) fn factor(self, orbit: &Orbit) -> Factor {
        match &self.0.kind {
            Kind::Own { node, .. } => orbit.factor(*node),
            Kind::Made(parts) => {
                parts.iter().fold(Factor { f: 1.0, u: 0.0 }, |product, &(times, part)| {
                    let own = Constituent(part).factor(orbit);
                    Factor {
                        f: product.f * own.f.powi(i32::from(times.abs())),
                        u: product.u + f64::from(times) * own.u,
                    }
                })
            }
        }
    }

    /// What its amplitude is multiplied by at an instant, the node factor f: a plain number about 1.
    ///
    /// # Errors
    /// [`DateOutside`] before 1900 and after 2100.
    pub fn node_factor(self, at: Timestamp) -> Result<f64, DateOutside> {
        Ok(self.factor(&Orbit::of(&Angles::at(seconds(at)?))).f)
    }

    /// What its argument is ahead by for the moon's node at an instant, u.
    ///
    /// # Errors
    /// [`DateOutside`] before 1900 and after 2100.
    pub fn node_angle(self, at: Timestamp) -> Result<PhaseLag, DateOutside> {
        Ok(PhaseLag::wrapped(self.factor(&Orbit::of(&Angles::at(seconds(at)?))).u))
    }

    /// Its equilibrium argument V at Greenwich at an instant, without u.
    ///
    /// # Errors
    /// [`DateOutside`] before 1900 and after 2100.
    pub fn equilibrium_argument(self, at: Timestamp) -> Result<PhaseLag, DateOutside> {
        Ok(PhaseLag::wrapped(self.argument(&Angles::at(seconds(at)?))))
    }
}

impl PartialEq for Constituent {
    fn eq(&self, other: &Constituent) -> bool {
        self.0.name == other.0.name
    }
}
impl Eq for Constituent {}
impl fmt::Debug for Constituent {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.0.name)
    }
}
impl fmt::Display for Constituent {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.0.name)
    }
}

/// How fast a constituent's argument turns.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct AngularSpeed(f64);

impl AngularSpeed {
    /// In degrees an hour.
    pub const fn as_degrees_per_hour(self) -> f64 {
        self.0
    }
}

/// An angle of a constituent's turn, 0 up to but not including 360 degrees: as a port's constant,
/// by how much its high water lags behind the argument at Greenwich.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PhaseLag(f64);

impl PhaseLag {
    /// A lag on Greenwich of `degrees` with times in UTC, often written G or g; whole turns are taken off.
    ///
    /// # Errors
    /// [`OutOfRange`] when `degrees` is not finite.
    pub fn from_degrees(degrees: f64) -> Result<PhaseLag, OutOfRange> {
        OutOfRange::finite("phase in degrees", degrees).map(PhaseLag::wrapped)
    }

    /// The lag on Greenwich of one that was printed for clocks `ahead` of UTC, as agencies do that
    /// write all their times in their own zone.
    ///
    /// # Errors
    /// [`OutOfRange`] when `degrees` is not finite.
    pub fn in_zone(
        degrees: f64,
        constituent: Constituent,
        ahead: SignedDuration,
    ) -> Result<PhaseLag, OutOfRange> {
        let hours = ahead.as_secs_f64() / 3600.0;
        PhaseLag::from_degrees(degrees - constituent.speed().0 * hours)
    }

    fn wrapped(degrees: f64) -> PhaseLag {
        let turned = degrees.rem_euclid(360.0);
        PhaseLag(if turned >= 360.0 { 0.0 } else { turned })
    }

    /// In degrees, 0 up to but not including 360.
    pub const fn as_degrees(self) -> f64 {
        self.0
    }
}
