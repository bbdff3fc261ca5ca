//! A port's tide over a stretch of time, ready to be asked for many heights.

use jiff::civil;
use jiff::{SignedDuration, Timestamp};

use super::astro::Angles;
use super::height::Height;
use super::node::{NodalFactors, Orbit};
use super::port::Port;
use crate::moment::{midnight, timestamp, utc_date};

/// One constituent in a span: amplitude × cos(phase + speed × time).
#[derive(Debug, Clone, Copy)]
struct Term {
    /// With its node factor, in metres.
    amplitude: f64,
    /// At the span's beginning, in radians.
    phase: f64,
    /// In radians an hour.
    speed: f64,
}

/// A stretch of time with the same node factors: a calendar year, or a day.
#[derive(Debug, Clone)]
pub(super) struct Span {
    /// In seconds from 1970.
    pub(super) from: f64,
    pub(super) to: f64,
    mean: f64,
    terms: Vec<Term>,
}

impl Span {
    /// The span that holds an instant.
    pub(super) fn around(port: &Port, seconds: f64) -> Span {
        let date = utc_date(timestamp(seconds));
        let year = |year| midnight(civil::date(year, 1, 1));
        let (from, to, factors) = match port.nodal_factors() {
            NodalFactors::MidYear => {
                let middle = midnight(civil::date(date.year(), 7, 2)) + 43_200.0;
                (year(date.year()), year(date.year() + 1), middle)
            }
            NodalFactors::Daily => {
                let from = midnight(date);
                (from, from + 86_400.0, from + 43_200.0)
            }
        };
        let orbit = Orbit::of(&Angles::at(factors));
        let angles = Angles::at(from);
        let term = |harmonic: &super::Harmonic| {
            let constituent = harmonic.constituent;
            let factor = constituent.factor(&orbit);
            let degrees = constituent.argument(&angles) + factor.u - harmonic.phase.as_degrees();
            Term {
                amplitude: harmonic.amplitude.as_metres() * factor.f,
                phase: degrees.rem_euclid(360.0).to_radians(),
                speed: constituent.speed_at(f64::midpoint(from, to)).to_radians(),
            }
        };
        // A constituent that the port lacks in all but name costs as much as any other.
        let heard = port.harmonics().iter().filter(|h| h.amplitude > crate::Length::ZERO);
        Span { from, to, mean: port.mean_level().as_metres(), terms: heard.map(term).collect() }
    }

    fn hours(&self, seconds: f64) -> f64 {
        (seconds - self.from) / 3600.0
    }

    /// In metres.
    pub(super) fn height(&self, seconds: f64) -> f64 {
        let hours = self.hours(seconds);
        let height = |term: &Term| term.amplitude * (term.phase + term.speed * hours).cos();
        self.mean + self.terms.iter().map(height).sum::<f64>()
    }

    /// In metres an hour.
    pub(super) fn rate(&self, seconds: f64) -> f64 {
        let hours = self.hours(seconds);
        let rate =
            |term: &Term| -term.amplitude * term.speed * (term.phase + term.speed * hours).sin();
        self.terms.iter().map(rate).sum()
    }

    /// The most that the derivative of this order can be, in metres and hours.
    pub(super) fn bound(&self, order: i32) -> f64 {
        self.terms.iter().map(|term| term.amplitude * term.speed.powi(order)).sum()
    }
}

/// A port's tide from one instant to another.
#[derive(Debug, Clone)]
pub struct Curve {
    /// Following one another without a gap.
    pub(super) spans: Vec<Span>,
    pub(super) from: f64,
    pub(super) to: f64,
}

impl Curve {
    /// Between two instants in seconds from 1970, in either order.
    pub(super) fn of(port: &Port, one: f64, other: f64) -> Curve {
        let (from, to) = (one.min(other), one.max(other));
        let mut spans = vec![Span::around(port, from)];
        while let Some(last) = spans.last()
            && last.to < to
        {
            let next = last.to;
            spans.push(Span::around(port, next));
        }
        Curve { spans, from, to }
    }

    /// When it begins.
    pub fn start(&self) -> Timestamp {
        timestamp(self.from)
    }

    /// When it ends.
    pub fn end(&self) -> Timestamp {
        timestamp(self.to)
    }

    /// The height of tide at an instant; outside the curve's time by the node factors of its
    /// nearest end, which is a matter of millimetres in the first days.
    pub fn height(&self, at: Timestamp) -> Height {
        let seconds = at.as_duration().as_secs_f64();
        Height::metres(self.span(seconds).height(seconds))
    }

    /// How fast the height grows at an instant, by the hour; falling water is negative.
    pub fn rise_per_hour(&self, at: Timestamp) -> crate::Length {
        let seconds = at.as_duration().as_secs_f64();
        crate::Length::metres(self.span(seconds).rate(seconds))
    }

    /// Heights from the curve's beginning to its end, `every` so often, at least a second.
    ///
    /// Each constituent is turned by a fixed angle from one height to the next, so that none
    /// needs a cosine; within 1e-9 m of [`Curve::height`].
    pub fn heights(&self, every: SignedDuration) -> Heights<'_> {
        Heights::new(self, every.as_secs_f64().max(1.0))
    }

    fn index(&self, seconds: f64) -> usize {
        self.spans.partition_point(|span| span.to <= seconds).min(self.spans.len() - 1)
    }

    pub(super) fn span(&self, seconds: f64) -> &Span {
        &self.spans[self.index(seconds)]
    }
}

/// Heights after which the turning constituents are set anew, so that rounding cannot add up.
const ANEW: u32 = 256;

/// Heights of a curve at equal steps: see [`Curve::heights`].
#[derive(Debug, Clone)]
pub struct Heights<'a> {
    curve: &'a Curve,
    every: f64,
    /// How many have been given.
    given: u32,
    /// The span that the terms below are of, and how many more heights they are good for.
    span: usize,
    good_for: u32,
    /// Each constituent as it stands, and its turn in a step, as vectors.
    x: Vec<f64>,
    y: Vec<f64>,
    turn_x: Vec<f64>,
    turn_y: Vec<f64>,
}

impl<'a> Heights<'a> {
    fn new(curve: &'a Curve, every: f64) -> Heights<'a> {
        let empty = Vec::new;
        Heights {
            curve,
            every,
            given: 0,
            span: usize::MAX,
            good_for: 0,
            x: empty(),
            y: empty(),
            turn_x: empty(),
            turn_y: empty(),
        }
    }

    /// Sets the vectors to where they stand at an instant.
    fn set(&mut self, seconds: f64) {
        let index = self.curve.index(seconds);
        let span = &self.curve.spans[index];
        let hours = span.hours(seconds);
        self.x.clear();
        self.y.clear();
        for term in &span.terms {
            let (sin, cos) = (term.phase + term.speed * hours).sin_cos();
            self.x.push(term.amplitude * cos);
            self.y.push(term.amplitude * sin);
        }
        if index != self.span {
            let turns = span.terms.iter().map(|term| (term.speed * self.every / 3600.0).sin_cos());
            (self.turn_y, self.turn_x) = turns.unzip();
            self.span = index;
        }
        self.good_for = ANEW;
    }

    /// Turns each vector by its step.
    fn turn(&mut self) {
        let turns = self.turn_x.iter().zip(&self.turn_y);
        for ((x, y), (cos, sin)) in self.x.iter_mut().zip(&mut self.y).zip(turns) {
            (*x, *y) = (*x * cos - *y * sin, *y * cos + *x * sin);
        }
        self.good_for -= 1;
    }
}

impl Iterator for Heights<'_> {
    type Item = Height;

    fn next(&mut self) -> Option<Height> {
        let seconds = self.curve.from + f64::from(self.given) * self.every;
        if seconds > self.curve.to {
            return None;
        }
        let here = self.curve.spans.get(self.span);
        if self.good_for == 0 || here.is_none_or(|span| seconds >= span.to) {
            self.set(seconds);
        } else {
            self.turn();
        }
        self.given += 1;
        Some(Height::metres(self.curve.spans[self.span].mean + self.x.iter().sum::<f64>()))
    }
}
