//! Stations with harmonic constants, along one axis or along two that make an ellipse.

use jiff::{SignedDuration, Timestamp};

use super::run::{Knot, Run, vector};
use crate::moment::DateOutside;
use crate::tide::{Constituent, Harmonic, Height, PhaseLag, Port, PortError};
use crate::triangle::Stream;
use crate::{Bearing, Length, Speed, True};

/// One constituent's constants of a stream along an axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StreamHarmonic {
    /// The constituent.
    pub constituent: Constituent,
    /// Its greatest rate.
    pub rate: Speed,
    /// How far its greatest rate along the axis lags behind its argument at Greenwich.
    pub phase: PhaseLag,
}

/// A station with harmonic constants: the stream along an axis, across it if it turns round the clock,
/// and what runs on when the tide is averaged out.
#[derive(Debug, Clone, PartialEq)]
pub struct AxisStation {
    axis: Bearing<True>,
    /// Rates as a port has heights: metres a second for metres.
    along: Port,
    across: Option<Port>,
    residual: Stream,
}

/// How far apart the knots of a run are. On a stream of 2 m/s (4 kn) by M2 the straight lines between
/// them are within 0.0005 m/s.
const STEP: SignedDuration = SignedDuration::from_mins(5);

impl AxisStation {
    /// The station called `name` whose stream runs along `axis`, positive that way, with `across` it,
    /// positive to the right, and with `residual`, the mean stream.
    ///
    /// # Errors
    /// [`PortError`] when the axis has no constituents, or one twice, or a rate of more than 20 m/s.
    pub fn new(
        name: &str,
        axis: Bearing<True>,
        along: &[StreamHarmonic],
        across: &[StreamHarmonic],
        residual: Stream,
    ) -> Result<AxisStation, PortError> {
        let rates = |harmonics: &[StreamHarmonic]| {
            let harmonic =
                |&StreamHarmonic { constituent, rate, phase }: &StreamHarmonic| Harmonic {
                    constituent,
                    amplitude: Length::metres(rate.as_metres_per_second()),
                    phase,
                };
            Port::new(name, Height::metres(0.0), harmonics.iter().map(harmonic).collect())
        };
        let across = if across.is_empty() { None } else { Some(rates(across)?) };
        Ok(AxisStation { axis, along: rates(along)?, across, residual })
    }

    /// Its stream from one instant to another, with a knot every five minutes.
    ///
    /// # Errors
    /// [`DateOutside`] before 1900 and after 2100.
    pub fn run(&self, from: Timestamp, to: Timestamp) -> Result<Run, DateOutside> {
        // A step more than asked for, so that the last knot is no earlier than the end.
        let to = to.checked_add(STEP).unwrap_or(to);
        let rates = |port: &Port| -> Result<Vec<f64>, DateOutside> {
            Ok(port.curve(from, to)?.heights(STEP).map(Height::as_metres).collect())
        };
        let along = rates(&self.along)?;
        let across = self.across.as_ref().map(rates).transpose()?;
        let (ahead, right) = (vector(self.axis, 1.0), vector(self.axis, 1.0));
        let right = (right.1, -right.0);
        let residual = vector(self.residual.set, self.residual.drift.as_metres_per_second());
        let start = from.as_duration().as_secs_f64();
        let knot = |(index, along): (usize, f64)| {
            let across = across.as_ref().and_then(|across| across.get(index)).copied();
            let across = across.unwrap_or(0.0);
            let flow = (
                along * ahead.0 + across * right.0 + residual.0,
                along * ahead.1 + across * right.1 + residual.1,
            );
            Knot { at: start + index as f64 * STEP.as_secs_f64(), flow }
        };
        Ok(Run::new(along.into_iter().enumerate().map(knot).collect()))
    }
}
