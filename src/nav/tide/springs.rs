//! Springs and neaps: mean ranges, the day's factor between them, and when they come.

use jiff::Timestamp;

use super::astro::Angles;
use super::node::Orbit;
use super::port::{Harmonic, Port};
use crate::Length;
use crate::moment::{DateOutside, seconds, timestamp};

/// The mean ranges of a port at springs and at neaps.
///
/// ```
/// use nav::{Length, tide::MeanRanges};
/// let ranges = MeanRanges::new(4.0 * Length::METRE, 2.0 * Length::METRE).unwrap();
/// assert_eq!(ranges.factor(2.0 * Length::METRE), 0.0);
/// assert_eq!(ranges.factor(3.0 * Length::METRE), 0.5);
/// assert_eq!(ranges.factor(5.0 * Length::METRE), 1.5);
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MeanRanges {
    /// At springs.
    springs: Length,
    /// At neaps.
    neaps: Length,
}

/// Why there is no telling springs from neaps.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum RangesError {
    /// Harmonic constants without the two that springs are made of.
    #[error("the port has no {0}; springs and neaps are told from M2 and S2")]
    Missing(&'static str),
    /// A printed table that leaves them out.
    #[error("the table states no mean ranges at springs and neaps")]
    NotStated,
    /// Springs that are no larger than neaps.
    #[error(
        "a mean range of {springs} m at springs is not larger than {neaps} m at neaps, or that is below zero"
    )]
    Order {
        /// The range at springs, in metres.
        springs: f64,
        /// The range at neaps, in metres.
        neaps: f64,
    },
}

/// Why there are no dates of springs and neaps.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum SpringsError {
    /// Constants without the two that springs are made of.
    #[error(transparent)]
    Ranges(#[from] RangesError),
    /// An instant outside the years 1900 to 2100.
    #[error(transparent)]
    Date(#[from] DateOutside),
}

impl MeanRanges {
    /// From a table's own mean ranges.
    ///
    /// # Errors
    /// [`RangesError::Order`] unless springs are larger than neaps, and neaps no less than nothing.
    pub fn new(springs: Length, neaps: Length) -> Result<MeanRanges, RangesError> {
        if springs > neaps && neaps >= Length::ZERO {
            Ok(MeanRanges { springs, neaps })
        } else {
            let (springs, neaps) = (springs.as_metres(), neaps.as_metres());
            Err(RangesError::Order { springs, neaps })
        }
    }

    /// The mean range at springs.
    pub const fn springs(self) -> Length {
        self.springs
    }

    /// The mean range at neaps.
    pub const fn neaps(self) -> Length {
        self.neaps
    }

    /// Where a range lies between neaps and springs: 0 at mean neaps, 1 at mean springs, in
    /// proportion between them and on beyond them both.
    pub fn factor(self, range: Length) -> f64 {
        (range - self.neaps) / (self.springs - self.neaps)
    }
}

/// A tide by the form number F = (K1 + O1) / (M2 + S2) of its amplitudes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Form(f64);

/// Kinds of tide. Courtier 1938; Defant 1961: the bounds 0.25, 1.5 and 3.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TideKind {
    /// Two much alike high waters a day.
    SemiDiurnal,
    /// Two unlike ones.
    MixedMainlySemiDiurnal,
    /// At times only one.
    MixedMainlyDiurnal,
    /// One a day.
    Diurnal,
}

impl Form {
    /// The number itself.
    pub const fn number(self) -> f64 {
        self.0
    }

    /// The kind that it stands for.
    pub fn kind(self) -> TideKind {
        match self.0 {
            f if f < 0.25 => TideKind::SemiDiurnal,
            f if f < 1.5 => TideKind::MixedMainlySemiDiurnal,
            f if f < 3.0 => TideKind::MixedMainlyDiurnal,
            _ => TideKind::Diurnal,
        }
    }
}

/// Springs or neaps.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Phase {
    /// M2 and S2 pull together.
    Springs,
    /// They pull against each other.
    Neaps,
}

impl Port {
    fn amplitude(&self, name: &'static str) -> Result<Length, RangesError> {
        self.harmonic(name).map(|h| h.amplitude).ok_or(RangesError::Missing(name))
    }

    /// Its mean ranges: 2 (M2 + S2) at springs and 2 (M2 - S2) at neaps, by the amplitudes of its
    /// constants (D. T. Pugh, *Tides, Surges and Mean Sea-Level*, 1987, chapter 4). Where the
    /// tide is not [`TideKind::SemiDiurnal`] the moon's declination changes the range as much as her
    /// phase does, and the factor says little.
    ///
    /// # Errors
    /// [`RangesError`] without M2 or S2, or if S2 is not the smaller of them.
    pub fn mean_ranges(&self) -> Result<MeanRanges, RangesError> {
        let (m2, s2) = (self.amplitude("M2")?, self.amplitude("S2")?);
        MeanRanges::new((m2 + s2) * 2.0, (m2 - s2) * 2.0)
    }

    /// The form of its tide; a constituent that it lacks counts as nothing.
    ///
    /// # Errors
    /// [`RangesError`] when it has neither M2 nor S2.
    pub fn form(&self) -> Result<Form, RangesError> {
        let amplitude = |name| self.amplitude(name).unwrap_or(Length::ZERO);
        let semi_diurnal = amplitude("M2") + amplitude("S2");
        if semi_diurnal <= Length::ZERO {
            return Err(RangesError::Missing("M2"));
        }
        Ok(Form((amplitude("K1") + amplitude("O1")) / semi_diurnal))
    }

    /// When springs and neaps come between two instants: when M2 and S2 make high water together,
    /// and when one makes it at the other's low water. The tide's age after full and new moon, mostly
    /// a day or two, is in the port's constants.
    ///
    /// # Errors
    /// [`SpringsError`] without M2 or S2, and before 1900 or after 2100.
    pub fn springs_and_neaps(
        &self,
        from: Timestamp,
        to: Timestamp,
    ) -> Result<Vec<(Timestamp, Phase)>, SpringsError> {
        let find = |name| self.harmonic(name).ok_or(RangesError::Missing(name));
        let (m2, s2) = (find("M2")?, find("S2")?);
        let (from, to) = (seconds(from)?, seconds(to)?);
        // How far S2 is ahead of M2, in degrees; it gains a degree an hour, within two hundredths
        // by the moon's node.
        let ahead = |at: f64| {
            let angles = Angles::at(at);
            let angle = |h: &Harmonic| {
                let u = h.constituent.factor(&Orbit::of(&angles)).u;
                h.constituent.argument(&angles) + u - h.phase.as_degrees()
            };
            angle(s2) - angle(m2)
        };
        let gain = (s2.constituent.speed_at(from) - m2.constituent.speed_at(from)) / 3600.0;
        let mut at = from + (-ahead(from)).rem_euclid(180.0) / gain;
        let mut found = Vec::new();
        while at <= to {
            at -= ((ahead(at) + 90.0).rem_euclid(180.0) - 90.0) / gain;
            let phase =
                if ahead(at).to_radians().cos() > 0.0 { Phase::Springs } else { Phase::Neaps };
            if (from..=to).contains(&at) {
                found.push((timestamp(at), phase));
            }
            at += 180.0 / gain;
        }
        Ok(found)
    }
}
