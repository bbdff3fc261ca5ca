//! Stretches merged for a table: fewer and longer, with hardly another time.

use chart::water::Shares;
use nav::{Bearing, Length, True};

use super::{CourseLeg, Stretched};

/// The longest merged stretch, in metres: a stretch has no more than the table's own changes in time.
const LONGEST: f64 = 2_000.0;
/// How far the tracks of merged stretches may lie apart, in degrees.
const TURN: f64 = 0.5;
/// What may be merged: its length in metres times the square of the change of its shares, all changes
/// added up. Two stations that differ by 2 kn on 250 m then come to about a tenth of a second at 3 kn, as
/// the time goes with the square of what the mean leaves out.
const SPREAD: f64 = 5.0;

/// Stretches of a leg as one.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Merged {
    /// How far along the leg it begins.
    pub(super) begins: Length,
    pub(super) length: Length,
    pub(super) track: Bearing<True>,
    /// So much of the stream of each station; none where nothing is known.
    pub(super) parts: Vec<(f64, usize)>,
}

/// The stretches of a leg merged, but for those that begin at a mark, and how many of them come before
/// each mark.
pub(super) fn merged(leg: &CourseLeg, marks: &[usize]) -> (Vec<Merged>, Vec<usize>) {
    let mut merged = Vec::new();
    let mut before = vec![0];
    for ends in marks.windows(2) {
        let mut left = leg.stretches.get(ends[0]..ends[1]).unwrap_or_default();
        while let Some(first) = left.first() {
            let mut length = Length::ZERO;
            let goes = left.iter().take_while(|next| {
                length += next.length;
                joins(first, next, length)
            });
            // The first of them always goes.
            let (group, rest) = left.split_at(goes.count().max(1));
            merged.push(Merged::of(group, first));
            left = rest;
        }
        before.push(merged.len());
    }
    (merged, before)
}

/// Whether a stretch goes with the first of a group that is then so long.
fn joins(first: &Stretched, next: &Stretched, length: Length) -> bool {
    let metres = length.as_metres();
    let straight = first.track.turn_to(next.track).as_degrees().abs() <= TURN;
    let changes = match (&first.water, &next.water) {
        (Ok(one), Ok(other)) => change(one, other),
        (Err(_), Err(_)) => 0.0,
        _ => return false,
    };
    straight && metres <= LONGEST && metres * changes * changes <= SPREAD
}

/// The differences of all shares, added up.
pub(super) fn change(one: &Shares, other: &Shares) -> f64 {
    let part = |shares: &Shares, station: usize| {
        shares.parts().iter().find(|share| share.station == station).map_or(0.0, |share| share.part)
    };
    let changed: f64 = one.parts().iter().map(|a| (a.part - part(other, a.station)).abs()).sum();
    let come = other.parts().iter().filter(|b| part(one, b.station) == 0.0);
    changed + come.map(|b| b.part).sum::<f64>()
}

impl Merged {
    fn of(group: &[Stretched], first: &Stretched) -> Merged {
        let length: Length = group.iter().map(|stretch| stretch.length).sum();
        let mut parts: Vec<(f64, usize)> = Vec::new();
        for stretch in group {
            let weight = if group.len() == 1 { 1.0 } else { stretch.length / length };
            let shares = stretch.water.as_ref().map(Shares::parts).unwrap_or_default();
            for share in shares {
                match parts.iter_mut().find(|(_, station)| *station == share.station) {
                    Some((part, _)) => *part += weight * share.part,
                    None => parts.push((weight * share.part, share.station)),
                }
            }
        }
        Merged { begins: first.begins, length, track: first.track, parts }
    }
}
