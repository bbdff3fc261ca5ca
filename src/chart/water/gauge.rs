//! The tide at a port.

use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use nav::stream::{HighWater, high_waters};
use nav::tide::{
    Curve, Height, MeanRanges, Phase, Printed, RangesError, Seasonal, SecondaryPort, SpringsError,
    Turn,
};
use nav::{DateOutside, Length};

use super::known::Own;
use super::season::{Months, Season};
use super::{Basis, Fault, WaterError, known};
use crate::model::Port;
use crate::port::PortFile;
use crate::{Chart, Point};

/// What rises by less between two turns, in metres, is a stand of the tide and no high and low water.
const STAND_M: f64 = 0.02;

/// How far beyond a stretch of time turns are looked for: as far as differences of time go, half a
/// day, and two tides more.
const MARGIN: SignedDuration = SignedDuration::from_hours(48);

/// A port whose tide can be told: from its own constants, from those of its standard port, or from a
/// printed table, and then for no other time than the table's.
#[derive(Debug, Clone, PartialEq)]
pub struct Gauge {
    pub(super) name: String,
    pub(super) at: Option<Point>,
    /// Its own, or what the differences are on.
    pub(super) own: Own,
    pub(super) differences: Option<SecondaryPort>,
    pub(super) ranges: Result<MeanRanges, RangesError>,
    pub(super) basis: Basis,
    /// Of the standard port, where there are differences.
    pub(super) standard_basis: Option<Basis>,
    pub(super) months: Months,
    pub(super) standard_months: Months,
    /// How much higher the water stands than is told, by the season or the weather.
    pub(super) raised: Length,
}

/// A high or low water at a secondary port, and that of its standard port which it is told from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shifted {
    /// At the standard port.
    pub standard: Turn,
    /// At the port itself.
    pub own: Turn,
    /// The difference of time that was used.
    pub later: SignedDuration,
    /// The difference of height that was used, without what the season or the weather adds.
    pub higher: Length,
}

/// The height of tide over a stretch of time.
#[derive(Debug, Clone)]
pub enum GaugeCurve {
    /// By constants.
    Constants(Curve),
    /// By half a turn of a cosine from each high or low water to the next, at secondary ports and of
    /// printed tables; nothing where the differences turn a high and a low water about.
    Between(Option<Printed>),
}

impl GaugeCurve {
    /// The height at an instant of the stretch; nothing outside a printed table's time.
    pub fn height(&self, at: Timestamp) -> Option<Height> {
        match self {
            GaugeCurve::Constants(curve) => Some(curve.height(at)),
            GaugeCurve::Between(table) => {
                table.as_ref()?.height(at).ok().map(|height| height.cosine)
            }
        }
    }
}

impl Gauge {
    /// A port of a chart.
    pub(super) fn of(chart: &Chart, port: &Port) -> Result<Gauge, WaterError> {
        known::gauge(chart, port).map_err(|why| WaterError::Port { port: port.name.clone(), why })
    }

    /// Its name.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Where it stands on its chart; nothing of a port file.
    pub const fn at(&self) -> Option<Point> {
        self.at
    }

    /// The name of the port whose constants or table are used: its own, or its standard port's.
    pub fn standard(&self) -> &str {
        self.own.name()
    }

    /// The port whose constants are used: itself, or its standard port; nothing where a printed table
    /// is used.
    pub const fn constants(&self) -> Option<&nav::tide::Port> {
        match &self.own {
            Own::Constants(port) => Some(port),
            Own::Table { .. } => None,
        }
    }

    /// The printed table that is used: its own, or its standard port's.
    pub const fn table(&self) -> Option<&Printed> {
        match &self.own {
            Own::Constants(_) => None,
            Own::Table { table, .. } => Some(table),
        }
    }

    /// The zone whose clock the times of the printed table that is used are on, if it states one.
    pub const fn zone(&self) -> Option<&TimeZone> {
        match &self.own {
            Own::Constants(_) => None,
            Own::Table { zone, .. } => zone.as_ref(),
        }
    }

    /// The first and the last instant that it knows: of a printed table. Nothing where constants tell
    /// any time from 1900 to 2100.
    pub fn covers(&self) -> Option<(Timestamp, Timestamp)> {
        let table = self.table()?;
        match &self.differences {
            None => Some(table.span()),
            Some(differences) => {
                let turns = differences.turns(table.turns());
                Some((turns.first()?.at, turns.last()?.at))
            }
        }
    }

    /// Whether it is known by differences on another port.
    pub const fn is_secondary(&self) -> bool {
        self.differences.is_some()
    }

    /// Where its constants, differences or table come from.
    pub const fn basis(&self) -> &Basis {
        &self.basis
    }

    /// What its tide is told from, the source and its age on a date: `by 11 constants of Port Ustorna,
    /// invented`.
    pub fn said(&self, on: Date) -> String {
        let (own, name) = (self.own.said(), self.standard());
        let basis = self.basis.said(on);
        match self.standard_basis.as_ref().map(|standard| standard.said(on)) {
            None => format!("by {own} of {name}, {basis}"),
            Some(standard) if standard == basis => {
                format!("by differences on {name} and its {own}, {basis}")
            }
            Some(standard) => {
                format!("by differences on {name}, {basis}, and its {own}, {standard}")
            }
        }
    }

    /// The same, and for how long it is known if that is a printed table: `..., for 2026-06-14T01:27Z
    /// to 2026-06-14T19:54Z alone`.
    pub fn told(&self, on: Date) -> String {
        let said = self.said(on);
        let minute = |at: Timestamp| at.strftime("%Y-%m-%dT%H:%MZ").to_string();
        match self.covers() {
            None => said,
            Some((from, to)) => format!("{said}, for {} to {} alone", minute(from), minute(to)),
        }
    }

    /// Its mean ranges.
    ///
    /// # Errors
    /// [`Fault::Ranges`] where springs and neaps cannot be told apart.
    pub fn ranges(&self) -> Result<MeanRanges, Fault> {
        self.ranges.map_err(|why| Fault::Ranges { port: self.name.clone(), why })
    }

    /// When springs and neaps come between two instants, by the constants of the port or of its
    /// standard port; nothing by a printed table.
    ///
    /// # Errors
    /// [`SpringsError`] where they cannot be told apart, and before 1900 or after 2100.
    pub fn springs_and_neaps(
        &self,
        from: Timestamp,
        to: Timestamp,
    ) -> Result<Vec<(Timestamp, Phase)>, SpringsError> {
        self.constants().map_or(Ok(Vec::new()), |port| port.springs_and_neaps(from, to))
    }

    /// The same port with its water so much higher than is told, as the weather has it: heights of
    /// water and of high and low waters alike.
    #[must_use]
    pub fn raised(mut self, higher: Length) -> Gauge {
        self.raised += higher;
        self
    }

    /// The same port with a season's level.
    #[must_use]
    pub fn in_season(mut self, season: Season) -> Gauge {
        self.differences = self.differences.map(|differences| {
            let (standard, secondary) = (season.taken_off, Length::ZERO);
            differences.with_seasonal(Seasonal { standard, secondary })
        });
        self.raised(season.added)
    }

    /// Its high and low waters from one instant to just before another, in order and by turns, but
    /// for rises of less than 2 cm, which are stands. Of a printed table those that it has.
    ///
    /// # Errors
    /// [`DateOutside`] before 1900 and after 2100.
    pub fn waters(&self, from: Timestamp, to: Timestamp) -> Result<Vec<Turn>, DateOutside> {
        let mut turns = self.around(from, to)?;
        turns.retain(|turn| (from..to).contains(&turn.at));
        Ok(turns)
    }

    /// Its high and low waters beside those of its standard port, from one instant to just before
    /// another; none where it is no secondary port.
    ///
    /// # Errors
    /// [`DateOutside`] before 1900 and after 2100.
    pub fn shifted(&self, from: Timestamp, to: Timestamp) -> Result<Vec<Shifted>, DateOutside> {
        if self.differences.is_none() {
            return Ok(Vec::new());
        }
        let standard = self.standard_turns(from, to)?;
        let own = self.around(from, to)?;
        let both = standard.into_iter().zip(own).map(|(standard, own)| Shifted {
            standard,
            own,
            later: own.at.duration_since(standard.at),
            higher: own.height - self.raised - standard.height,
        });
        Ok(both.filter(|both| (from..to).contains(&both.own.at)).collect())
    }

    /// The turns of the constants or the table, and those about them on both sides, but for what lies
    /// before 1900 and after 2100.
    fn standard_turns(&self, from: Timestamp, to: Timestamp) -> Result<Vec<Turn>, DateOutside> {
        match &self.own {
            Own::Table { table, .. } => Ok(table.turns().to_vec()),
            Own::Constants(port) => {
                let before = from.checked_sub(MARGIN).unwrap_or(from);
                let after = to.checked_add(MARGIN).unwrap_or(to);
                let curve = port.curve(before, after).or_else(|_| port.curve(from, to))?;
                Ok(curve.high_and_low_waters(STAND_M * Length::METRE))
            }
        }
    }

    /// Its own high and low waters, and those about them on both sides.
    pub(super) fn around(&self, from: Timestamp, to: Timestamp) -> Result<Vec<Turn>, DateOutside> {
        let told = self.standard_turns(from, to)?;
        let mut turns = match &self.differences {
            Some(differences) => differences.turns(&told),
            None => told,
        };
        turns.iter_mut().for_each(|turn| turn.height = turn.height + self.raised);
        Ok(turns)
    }

    /// The high waters that streams are counted from, from two days before one instant to two days
    /// after another; of a printed table those that it has.
    pub(super) fn high_waters(
        &self,
        from: Timestamp,
        to: Timestamp,
        ranges: MeanRanges,
    ) -> Result<Vec<HighWater>, DateOutside> {
        Ok(high_waters(&self.around(from, to)?, ranges))
    }

    /// The height of tide from one instant to another, made ready for many questions.
    ///
    /// # Errors
    /// [`DateOutside`] before 1900 and after 2100.
    pub fn curve(&self, from: Timestamp, to: Timestamp) -> Result<GaugeCurve, DateOutside> {
        match (&self.own, &self.differences) {
            (Own::Constants(port), None) => {
                let curve = match self.raised {
                    Length::ZERO => port.curve(from, to),
                    raised => port.clone().raised(raised).curve(from, to),
                };
                Ok(GaugeCurve::Constants(curve?))
            }
            _ => Ok(GaugeCurve::Between(self.between(from, to)?)),
        }
    }

    /// Its high and low waters over a stretch of time as a printed table would have them, with the
    /// cosine and the twelfths between; nothing where the differences turn them about.
    ///
    /// # Errors
    /// [`DateOutside`] before 1900 and after 2100.
    pub fn between(&self, from: Timestamp, to: Timestamp) -> Result<Option<Printed>, DateOutside> {
        Ok(Printed::new(self.around(from, to)?).ok())
    }

    /// The height of tide at an instant; nothing where [`GaugeCurve`] has none.
    ///
    /// # Errors
    /// [`DateOutside`] before 1900 and after 2100.
    pub fn height(&self, at: Timestamp) -> Result<Option<Height>, DateOutside> {
        Ok(self.curve(at, at)?.height(at))
    }
}

/// The port of a port file.
impl From<PortFile> for Gauge {
    fn from(file: PortFile) -> Gauge {
        known::of_file(file)
    }
}
