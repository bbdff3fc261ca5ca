//! The rows of the table: what the stream and the boat do along a stretch at regular instants.

use super::super::Stretch;
use super::super::boat::{Axes, Boat};
use super::super::hold::Clock;
use crate::Speed;
use crate::stream::{Knot, Run, Vector, toward};

/// From one instant of the table to the next, in seconds: the step of harmonic stations.
pub(super) const STEP: f64 = 300.0;

/// The least speed along the line that is looked up, in metres per second: half a knot. What is slower is
/// walked, since a small error of the speed is a great one of the time.
const LEAST_LOOKED_UP: f32 = (0.5 * Speed::KNOT.as_metres_per_second()) as f32;

/// The least part of its speed that the boat has left ahead where it is looked up: with less, a small
/// error of the stream across is a great one of that part.
const LEAST_AHEAD: f32 = 0.2;

/// The most that the mean of a step may be off the middle of the speeds at its ends, as a part of the speed.
/// A stream that bends more between the two has no parabola that is trusted within the step: with one knot
/// in a step and the mean off by this, the parabola is off by up to a fifth of a second.
const MOST_BENT: f32 = 0.003;

/// A stretch at an instant, and up to the next.
#[derive(Debug, Clone, Copy)]
pub(super) struct Node {
    /// The speed along the line in metres per second.
    pub(super) speed: f32,
    /// Its mean up to the next node; no number where it is not to be looked up.
    pub(super) mean: f32,
    /// The water along and across the track.
    pub(super) along: f32,
    pub(super) across: f32,
}

/// A stream at each instant of the table, and its mean up to the next: exact, whatever its knots. No
/// numbers outside its time.
pub(super) struct Sampled<'a> {
    run: &'a Run,
    nodes: [Vec<f32>; 2],
    means: [Vec<f32>; 2],
}

impl<'a> Sampled<'a> {
    pub(super) fn is_of(&self, run: &Run) -> bool {
        std::ptr::eq(self.run, run)
    }

    /// In one sweep along the knots.
    pub(super) fn of(run: &'a Run, clock: Clock, cells: usize) -> Sampled<'a> {
        let nothing = || [Vec::with_capacity(cells + 1), Vec::with_capacity(cells + 1)];
        let (mut nodes, mut means) = (nothing(), nothing());
        let instant = |index: usize| clock.origin + index as f64 * STEP;
        let knots = run.knots();
        let mut next = run.next_after(clock.origin, 0.0);
        let mut here = between(knots, next, instant(0));
        for index in 0..cells {
            let (mut from, end) = (instant(index), instant(index + 1));
            push(&mut nodes, here);
            let mut sum = Some((0.0, 0.0));
            while let Some(knot) = knots.get(next)
                && knot.at <= end
            {
                sum = further(sum, here, Some(knot.flow), knot.at - from);
                (from, here, next) = (knot.at, Some(knot.flow), next + 1);
            }
            let there = between(knots, next, end);
            sum = further(sum, here, there, end - from);
            push(&mut means, sum.map(|sum| (sum.0 / STEP, sum.1 / STEP)));
            here = there;
        }
        push(&mut nodes, here);
        Sampled { run, nodes, means }
    }
}

/// The stream at an instant, of which `next` is the first knot after it.
fn between(knots: &[Knot], next: usize, at: f64) -> Option<Vector> {
    let before = knots.get(next.checked_sub(1)?)?;
    match knots.get(next) {
        Some(after) => {
            let part = (at - before.at) / (after.at - before.at);
            Some(toward(before.flow, after.flow, part))
        }
        None => (before.at == at).then_some(before.flow),
    }
}

/// A sum of the water's way with so many seconds more, from one stream to another; nothing where one of
/// them is not known.
fn further(sum: Option<Vector>, a: Option<Vector>, b: Option<Vector>, span: f64) -> Option<Vector> {
    let (sum, a, b) = (sum?, a?, b?);
    Some((sum.0 + span * f64::midpoint(a.0, b.0), sum.1 + span * f64::midpoint(a.1, b.1)))
}

fn push(columns: &mut [Vec<f32>; 2], flow: Option<Vector>) {
    let flow = flow.unwrap_or((f64::NAN, f64::NAN));
    columns[0].push(flow.0 as f32);
    columns[1].push(flow.1 as f32);
}

/// The rows of stretches, with room to work in: columns, so that a loop works at several at a time.
#[derive(Default)]
pub(super) struct Rows {
    /// The water along and across at the nodes.
    along: Vec<f32>,
    across: Vec<f32>,
    /// Its means from node to node.
    mean_along: Vec<f32>,
    mean_across: Vec<f32>,
    /// What the boat makes ahead at the nodes.
    ahead: Vec<f32>,
    /// The mean speed from node to node.
    means: Vec<f32>,
}

impl Rows {
    /// The row of a stretch with water, onto the end of `nodes`.
    pub(super) fn row(
        &mut self,
        stretch: &Stretch<'_>,
        sampled: &[Sampled<'_>],
        boat: Boat,
        cells: usize,
        nodes: &mut Vec<Node>,
    ) {
        let axes = Axes::of(stretch.track);
        for (columns, length) in [
            ([&mut self.along, &mut self.across], cells + 1),
            ([&mut self.mean_along, &mut self.mean_across], cells),
        ] {
            for column in columns {
                column.clear();
                column.resize(length, 0.0);
            }
        }
        for (part, run) in &stretch.water {
            let Some(of) = sampled.iter().find(|one| one.is_of(run)) else { continue };
            // How much the stream's east and north count along and across.
            let (east, north) = (axes.onto((*part, 0.0)), axes.onto((0.0, *part)));
            for (columns, from) in [
                ([&mut self.along, &mut self.across], &of.nodes),
                ([&mut self.mean_along, &mut self.mean_across], &of.means),
            ] {
                let [along, across] = columns;
                mix(along, (east.0 as f32, north.0 as f32), from);
                mix(across, (east.1 as f32, north.1 as f32), from);
            }
        }
        let push = axes.onto(boat.push());
        let push = (push.0 as f32, push.1 as f32);
        self.means(boat.speed().as_metres_per_second() as f32, push);
        // The last node has no mean: nothing is looked up beyond it.
        let means = self.means.iter().copied().chain([f32::NAN]);
        let water = self.along.iter().zip(&self.across);
        nodes.extend(self.ahead.iter().zip(water).zip(means).map(
            |((&ahead, (&along, &across)), mean)| Node {
                speed: ahead + along + push.0,
                mean,
                along,
                across,
            },
        ));
    }

    /// The mean speeds of a boat, and no numbers where they are not to be looked up.
    fn means(&mut self, boat: f32, push: (f32, f32)) {
        let ahead = |across: f32| {
            let across = across + push.1;
            ((boat - across) * (boat + across)).sqrt()
        };
        self.ahead.clear();
        self.ahead.extend(self.across.iter().map(|&across| ahead(across)));
        let cells = self.mean_along.len();
        self.means.clear();
        self.means.resize(cells, f32::NAN);
        // Slices of one length, so that the loop has no bounds to check and is worked several at a time.
        let means = &mut self.means[..cells];
        let (ahead_a, ahead_b) = (&self.ahead[..cells], &self.ahead[1..][..cells]);
        let (along_a, along_b) = (&self.along[..cells], &self.along[1..][..cells]);
        let (across_a, across_b) = (&self.across[..cells], &self.across[1..][..cells]);
        let (mean_along, mean_across) = (&self.mean_along[..cells], &self.mean_across[..cells]);
        for cell in 0..cells {
            // What the parabola with these ends and this mean has in the middle; Simpson's rule.
            let across = (6.0 * mean_across[cell] - across_a[cell] - across_b[cell]) * 0.25;
            let (middle, a, b) = (ahead(across), ahead_a[cell], ahead_b[cell]);
            let mean = (a + 4.0 * middle + b) * (1.0 / 6.0) + mean_along[cell] + push.0;
            let (from, to) = (a + along_a[cell] + push.0, b + along_b[cell] + push.0);
            let between = (6.0 * mean - from - to) * 0.25;
            let slow = least(least(from, to), between);
            let fast = -least(least(-from, -to), -between);
            let bent = (mean - (from + to) * 0.5).abs();
            // A speed that doubles within the step has no parabola that is trusted, either. What is not
            // known makes the mean no number by itself.
            let looked_up = (least(least(a, b), middle) >= LEAST_AHEAD * boat)
                & (slow >= LEAST_LOOKED_UP)
                & (bent <= MOST_BENT * slow)
                & (fast <= 2.0 * slow);
            means[cell] = if looked_up { mean } else { f32::NAN };
        }
    }
}

/// The smaller of two; which of them where one is no number does not matter here.
fn least(a: f32, b: f32) -> f32 {
    if a < b { a } else { b }
}

/// So much of a stream's east and north onto a column.
fn mix(column: &mut [f32], (east, north): (f32, f32), from: &[Vec<f32>; 2]) {
    for ((sum, e), n) in column.iter_mut().zip(&from[0]).zip(&from[1]) {
        *sum += east * e + north * n;
    }
}
