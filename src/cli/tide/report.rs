//! Everything that is printed of a tide, reckoned once for text, CSV and JSON.

use ::chart::water::{Gauge, GaugeCurve, Season, Shifted, TideDay};
use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Span, Timestamp};
use nav::Length;
use nav::tide::{AirPressure, Height, MoonPhase, Phase, moon_phases};

use super::Origin;
use crate::when;

/// What of a tide is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Show {
    /// Days.
    Days,
    /// Days, with the height at each hour.
    Hours,
    /// The ranges of a month.
    Month,
}

/// What is put on the heights because it was asked for.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct PutOn {
    pub(super) pressure: Option<AirPressure>,
    pub(super) season: bool,
}

impl PutOn {
    /// What the air's pressure adds.
    pub(super) fn by_air(self) -> Option<Length> {
        self.pressure.map(|pressure| pressure.raises(AirPressure::STANDARD))
    }
}

pub(super) struct Report<'a> {
    pub(super) origin: Origin,
    pub(super) gauge: &'a Gauge,
    /// The chart's other ports.
    pub(super) others: Vec<&'a str>,
    pub(super) zone: TimeZone,
    pub(super) show: Show,
    pub(super) put_on: PutOn,
    pub(super) days: Vec<DayOfTide>,
    /// The first day's.
    pub(super) curve: Option<GaugeCurve>,
    /// Of the month of the first day.
    pub(super) springs: Vec<(Timestamp, Phase)>,
    pub(super) moon: Vec<(Timestamp, MoonPhase)>,
}

pub(super) struct DayOfTide {
    pub(super) date: Date,
    pub(super) tide: TideDay,
    /// Beside the standard port's, at a secondary port.
    pub(super) shifted: Vec<Shifted>,
    /// What the season adds, where it was asked for.
    pub(super) season: Option<Season>,
    /// Where the hours are shown.
    pub(super) hours: Vec<Hour>,
    /// The moon's quarter on the day, or the next one.
    pub(super) moon: Option<(Timestamp, MoonPhase)>,
}

/// The height at an hour, where it is known.
pub(super) struct Hour {
    pub(super) at: Timestamp,
    /// As predicted, or by a cosine between two waters.
    pub(super) height: Option<Height>,
    pub(super) twelfths: Option<Height>,
}

impl Hour {
    /// How far the twelfths are above the height.
    pub(super) fn difference(&self) -> Option<Length> {
        Some(self.twelfths? - self.height?)
    }
}

impl<'a> Report<'a> {
    pub(super) fn new(
        origin: Origin,
        gauge: &'a Gauge,
        others: Vec<&'a str>,
        zone: TimeZone,
    ) -> Report<'a> {
        Report {
            origin,
            gauge,
            others,
            zone,
            show: Show::Days,
            put_on: PutOn::default(),
            days: Vec::new(),
            curve: None,
            springs: Vec::new(),
            moon: Vec::new(),
        }
    }

    /// The day that is shown when none is asked for: today, or the first that a printed table has
    /// where it lacks today.
    pub(super) fn first_day(&self, today: Date) -> Date {
        let Some((from, to)) = self.gauge.covers() else { return today };
        let [first, last] = [from, to].map(|at| at.to_zoned_datetime(self.zone.clone()).date());
        if (first..=last).contains(&today) { today } else { first }
    }

    /// Reckons so many days from the first.
    pub(super) fn fill(&mut self, first: Date, count: u16) -> anyhow::Result<()> {
        let mut date = first;
        for _ in 0..count {
            let day = self.day(date)?;
            self.days.push(day);
            date = date.tomorrow()?;
        }
        let (from, to) = self.month(first)?;
        // A port whose springs cannot be told has none.
        self.springs = self.gauge.springs_and_neaps(from, to).unwrap_or_default();
        self.moon = moon_phases(from, to)?;
        let Some(day) = self.days.first() else { return Ok(()) };
        let (from, last) = stretch(day.tide.from, day.tide.to);
        self.curve = Some(self.standing(first)?.0.curve(from, last)?);
        Ok(())
    }

    /// The port on a day, with all that was asked to be put on, and what the season was.
    fn standing(&self, date: Date) -> anyhow::Result<(Gauge, Option<Season>)> {
        let season = self.put_on.season.then(|| self.gauge.season(date)).transpose()?;
        let mut gauge = self.gauge.clone().raised(self.put_on.by_air().unwrap_or(Length::ZERO));
        if let Some(season) = season {
            gauge = gauge.in_season(season);
        }
        Ok((gauge, season))
    }

    fn day(&self, date: Date) -> anyhow::Result<DayOfTide> {
        let (gauge, season) = self.standing(date)?;
        let tide = gauge.day(date, &self.zone)?;
        let (from, last) = stretch(tide.from, tide.to);
        let hours = match self.show {
            Show::Hours => hours(&gauge, from, last)?,
            Show::Days | Show::Month => Vec::new(),
        };
        // A quarter of the moon lasts no more than nine days.
        let later = last.checked_add(SignedDuration::from_hours(9 * 24)).unwrap_or(last);
        let quarter = moon_phases(from, within(later))?.into_iter().next();
        let shifted = gauge.shifted(from, last)?;
        Ok(DayOfTide { date, shifted, season, hours, moon: quarter, tide })
    }

    /// The day whose range is the greatest by an order; nothing where none is known.
    pub(super) fn extreme(
        &self,
        order: impl Fn(&f64, &f64) -> std::cmp::Ordering,
    ) -> Option<(Date, Length)> {
        let ranges = self.days.iter().filter_map(|day| Some((day.date, day.tide.range?)));
        ranges.max_by(|a, b| order(&a.1.as_metres(), &b.1.as_metres()))
    }

    /// When the month of a day begins and ends.
    fn month(&self, date: Date) -> anyhow::Result<(Timestamp, Timestamp)> {
        let first = date.first_of_month();
        let next = first.checked_add(Span::new().months(1))?;
        let start = |date: Date| date.to_zoned_datetime(self.zone.clone());
        Ok((within(start(first)?.timestamp()), within(start(next)?.timestamp())))
    }
}

/// A day's first second and its last, since the last day of 2100 ends in another year.
fn stretch(from: Timestamp, to: Timestamp) -> (Timestamp, Timestamp) {
    (from, to - SignedDuration::from_secs(1))
}

/// The instant, or the nearest one of the years 1900 to 2100.
fn within(at: Timestamp) -> Timestamp {
    let [first, last] = [-2_208_988_800, 4_133_980_799].map(Timestamp::from_second);
    match (first, last) {
        (Ok(first), Ok(last)) => at.clamp(first, last),
        _ => at,
    }
}

fn hours(gauge: &Gauge, from: Timestamp, to: Timestamp) -> anyhow::Result<Vec<Hour>> {
    let (curve, table) = (gauge.curve(from, to)?, gauge.between(from, to)?);
    let hour = |at: Timestamp| {
        let between = table.as_ref().and_then(|table| table.height(at).ok());
        Hour { at, height: curve.height(at), twelfths: between.map(|height| height.twelfths) }
    };
    Ok(when::every(from, to, SignedDuration::from_hours(1)).map(hour).collect())
}
