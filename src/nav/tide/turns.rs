//! High and low waters: where the height stops rising or falling.

use jiff::Timestamp;

use super::curve::{Curve, Span};
use super::height::Height;
use crate::Length;
use crate::moment::timestamp;
use crate::roots::Smooth;

/// Which way the tide turns.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Water {
    /// High water: the height stops rising.
    High,
    /// Low water: the height stops falling.
    Low,
}

/// A turn of the tide: an instant at which the height neither rises nor falls.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Turn {
    /// When.
    pub at: Timestamp,
    /// How high the water stands.
    pub height: Height,
    /// High or low water.
    pub water: Water,
}

/// The time about a turn in which the water hardly moves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stand {
    /// When the water comes within so much of the turn's height.
    pub from: Timestamp,
    /// When it leaves that.
    pub to: Timestamp,
}

/// Two turns closer than this, in hours, are a stand of the tide and no turns.
const FINEST: f64 = 1.0 / 3600.0;

impl Curve {
    /// Every turn of the tide, in order, high and low by turns.
    ///
    /// They are the roots of the rate, isolated by a bound on its bend from the constituents'
    /// amplitudes and speeds, so that none is missed but a pair within a second of each other. Where
    /// shallow water makes a double high or low water, each of its turns is here, however small the
    /// rise between them; [`Curve::high_and_low_waters`] leaves the small ones out.
    pub fn turns(&self) -> Vec<Turn> {
        let mut turns = Vec::new();
        for (index, span) in self.spans.iter().enumerate() {
            let (from, to) = (self.from.max(span.from), self.to.min(span.to));
            let before = index.checked_sub(1).map(|index| &self.spans[index]);
            if let Some(before) = before {
                self.at_the_seam(before, span, &mut turns);
            }
            let rate = Smooth {
                value: |hours: f64| span.rate(from + hours * 3600.0),
                bend: span.bound(3),
                finest: FINEST,
            };
            for hours in rate.roots(0.0, (to - from) / 3600.0) {
                push(span, from + hours * 3600.0, &mut turns);
            }
        }
        turns
    }

    /// A turn that falls between two sets of node factors.
    fn at_the_seam(&self, before: &Span, after: &Span, turns: &mut Vec<Turn>) {
        let at = after.from;
        if (before.rate(at) < 0.0) != (after.rate(at) < 0.0) {
            let water = if after.rate(at) < 0.0 { Water::High } else { Water::Low };
            turns.push(Turn { at: timestamp(at), height: Height::metres(after.height(at)), water });
        }
    }

    /// The high and low waters, in order and by turns, without those stands of the tide where the
    /// water comes back by less than `least`.
    ///
    /// A double low water whose two lows have less than `least` between them counts once, at the
    /// lower of them; a halt of the rising tide does not count. The least rise left out goes first,
    /// and the two turns on its sides go together.
    pub fn high_and_low_waters(&self, least: Length) -> Vec<Turn> {
        let mut turns = self.turns();
        loop {
            let rises = turns.windows(2).map(|pair| (pair[1].height - pair[0].height).abs());
            let smallest =
                rises.enumerate().min_by(|(_, a), (_, b)| a.as_metres().total_cmp(&b.as_metres()));
            match smallest {
                Some((index, rise)) if rise < least => drop(turns.drain(index..index + 2)),
                _ => return turns,
            }
        }
    }

    /// How long the water stands within `within` of a turn's height, looked for seven hours either
    /// way and no further than the curve goes.
    pub fn stand(&self, turn: &Turn, within: Length) -> Stand {
        let at = turn.at.as_duration().as_secs_f64();
        let (height, within) = (turn.height.as_metres(), within.as_metres());
        let away = |hours: f64| {
            let seconds = (at + hours * 3600.0).clamp(self.from, self.to);
            (self.span(seconds).height(seconds) - height).abs() - within
        };
        // The size of a difference bends no more than the difference, but at its zero, where it
        // is far from `within`.
        let bend = self.span(at).bound(2);
        let leaves = |way: f64| {
            let after = Smooth { value: |hours: f64| away(way * hours), bend, finest: FINEST };
            after.roots(0.0, 7.0).first().copied().unwrap_or(7.0)
        };
        let end = |hours: f64| timestamp((at + hours * 3600.0).clamp(self.from, self.to));
        Stand { from: end(-leaves(-1.0)), to: end(leaves(1.0)) }
    }
}

fn push(span: &Span, at: f64, turns: &mut Vec<Turn>) {
    // Opposite to the one before, and by the rate's own change at the first.
    let water = match turns.last() {
        Some(last) if last.water == Water::High => Water::Low,
        Some(_) => Water::High,
        None if span.rate(at - 1.0) < span.rate(at + 1.0) => Water::Low,
        None => Water::High,
    };
    turns.push(Turn { at: timestamp(at), height: Height::metres(span.height(at)), water });
}
