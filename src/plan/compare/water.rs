//! The way through the water: the way over the ground less what the water moved meanwhile.

use std::collections::HashMap;

use chart::water::{Flows, Shares};
use jiff::{SignedDuration, Timestamp};

use super::Track;
use super::plane::{Plane, Spot};
use crate::course::Spotter;
use crate::unrolled::Ground;

/// Whose stream a place has is asked once in a square of this side, in metres on the ground: a place has
/// the stream of another that is up to 71 m away. On lines of the practice chart the mean pace
/// through the water is within 0.02 kn of what the stream asked for at every second's place gives.
pub const SQUARE_M: f64 = 50.0;
/// Before and after the track the streams are known for so long.
const BESIDE: SignedDuration = SignedDuration::from_hours(1);
/// The streams of longer than this are not asked for: it is no trip.
const LONGEST: SignedDuration = SignedDuration::from_hours(24 * 60);

/// How long the group moved where the stream is known, and where it is not.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct StreamKnown {
    /// Where it is known.
    pub known: SignedDuration,
    /// Where no station of the chart tells it: off the chart, on land, or too far from all.
    pub no_station: SignedDuration,
    /// Where a station reaches, but not on this day: a printed table has other days.
    pub other_day: SignedDuration,
}

/// The water under each step of a track.
pub(super) struct Water {
    /// The way through the water on each step, in metres; not a number where it is not known.
    pub(super) steps: Vec<f64>,
    pub(super) known: StreamKnown,
}

pub(super) fn water(track: &Track<'_>, plane: &Plane, ground: &Ground<'_>) -> Water {
    let steps = &track.samples.steps;
    let mut water = Water { steps: vec![f64::NAN; steps.len()], known: StreamKnown::default() };
    let Some(epoch) = track.epoch else { return water };
    let flows = flows(track, epoch, ground);
    let side = SQUARE_M * track.samples.all.first().map_or(1.0, |first| first.at.scale);
    let mut waters = Waters { plane, spotter: Spotter::new(ground), squares: HashMap::new(), side };
    let mut times = [0.0; 3];
    for (number, &(from, to)) in steps.iter().enumerate() {
        let samples = &track.samples.all;
        let (Some(from), Some(to)) = (samples.get(from as usize), samples.get(to as usize)) else {
            continue;
        };
        let (time, middle) = (to.t - from.t, from.at.towards(to.at, 0.5));
        let at = instant(epoch, (from.t + to.t) / 2.0);
        let stream = flows.as_ref().map(|flows| waters.vector(middle, at, flows));
        let why = match stream {
            Some(Ok((east, north))) => {
                let made = from.at.to(to.at);
                water.steps[number] = (made.0 - east * time).hypot(made.1 - north * time);
                0
            }
            Some(Err(Unknown::Here)) | None => 1,
            Some(Err(Unknown::Now)) => 2,
        };
        times[why] += time;
    }
    let [known, no_station, other_day] = times.map(seconds);
    water.known = StreamKnown { known, no_station, other_day };
    water
}

/// The streams while the track lasts; nothing on a chart that tells none, and outside the years in which
/// any is told.
fn flows(track: &Track<'_>, epoch: Timestamp, ground: &Ground<'_>) -> Option<Flows> {
    let tides = ground.tides.filter(|tides| !tides.stations().is_empty())?;
    let (first, last) = (track.samples.all.first()?, track.samples.all.last()?);
    let from = instant(epoch, first.t).checked_sub(BESIDE).ok()?;
    let to = instant(epoch, last.t).checked_add(BESIDE).ok()?;
    (to.duration_since(from) <= LONGEST).then(|| tides.flows(from, to).ok())?
}

enum Unknown {
    Here,
    Now,
}

/// Whose stream each square has.
struct Waters<'a> {
    plane: &'a Plane,
    spotter: Spotter<'a>,
    squares: HashMap<(i64, i64), Shares>,
    /// Of a square on the plane: one for the whole track, or squares would not lie side by side.
    side: f64,
}

impl Waters<'_> {
    /// The stream at a place and an instant, east and north, in metres a second.
    fn vector(&mut self, at: Spot, when: Timestamp, flows: &Flows) -> Result<(f64, f64), Unknown> {
        let square = ((at.x / self.side).floor() as i64, (at.y / self.side).floor() as i64);
        if !self.squares.contains_key(&square) {
            let position = self.plane.position(at.x, at.y).ok_or(Unknown::Here)?;
            // Of a place without a stream the next one in its square is asked anew: the shore may run
            // between them.
            let shares = self.spotter.water(position).map_err(|_| Unknown::Here)?;
            self.squares.insert(square, shares);
        }
        let shares = self.squares.get(&square).ok_or(Unknown::Here)?;
        let stream = flows.at(shares, when).ok_or(Unknown::Now)?;
        let (sin, cos) = stream.set.as_degrees().to_radians().sin_cos();
        let rate = stream.drift.as_metres_per_second();
        Ok((rate * sin, rate * cos))
    }
}

/// So many seconds after another instant.
pub(super) fn instant(epoch: Timestamp, t: f64) -> Timestamp {
    epoch.checked_add(seconds(t)).unwrap_or(epoch)
}

pub(super) fn seconds(seconds: f64) -> SignedDuration {
    SignedDuration::try_from_secs_f64(seconds).unwrap_or_default()
}
