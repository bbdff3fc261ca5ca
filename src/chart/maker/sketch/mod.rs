//! The bold lines of a coast: ridges that stand out of the sea, channels cut through them, shelves
//! strewn with skerries, the body of a mainland. Distances in metres from the chart's south-west
//! corner.

mod archipelago;
mod cliffs;
mod estuary;
mod lagoon;
mod lochs;
mod parts;
mod skerries;

use super::body::Body;
use super::dice::{Dice, Xy};
use super::wishes::{Character, Wishes};

/// High ground about a line: its height falls to the sea over a radius.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ridge {
    pub(super) from: Xy,
    pub(super) to: Xy,
    /// Half its width at the water, at either end.
    pub(super) radius: (f64, f64),
    /// How high it stands.
    pub(super) height: f64,
}

/// A cut below the sea along a line.
#[derive(Debug, Clone)]
pub(super) struct Channel {
    pub(super) path: Vec<Stop>,
}

/// A place on a channel's line.
#[derive(Debug, Clone, Copy)]
pub(super) struct Stop {
    pub(super) at: Xy,
    /// Half the width.
    pub(super) reach: f64,
    /// Height of the floor above high water, so below zero.
    pub(super) floor: f64,
}

/// A shelf near the surface, broken into skerries.
#[derive(Debug, Clone, Copy)]
pub(super) struct Shelf {
    pub(super) middle: Xy,
    pub(super) radius: f64,
}

/// How rough a coast is, beside the archipelago, which is the measure of the others.
#[derive(Debug, Clone, Copy)]
pub(super) struct Style {
    /// How high the hills stand, from the broadest to the smallest.
    pub(super) hills: [f64; 5],
    /// How far the bold lines are bent.
    pub(super) bend: f64,
    /// How much of the roughness across the grain there is along it.
    pub(super) stretch: f64,
    /// How steeply the sides of channels rise.
    pub(super) bank: f64,
    /// Whether channels are kept clear of their bed's own roughness, so that none is shut by it.
    pub(super) clear: bool,
    /// How long the waves of sand and mud are.
    pub(super) sands: f64,
}

/// All of it.
#[derive(Debug, Clone)]
pub(super) struct Sketch {
    pub(super) size: Xy,
    /// How large things are beside those of a chart of 30 by 22 km.
    pub(super) k: f64,
    /// Which way the ridges run: of length 1.
    pub(super) grain: Xy,
    /// Which way the flood goes in open water: of length 1.
    pub(super) flood: Xy,
    pub(super) style: Style,
    pub(super) body: Body,
    pub(super) ridges: Vec<Ridge>,
    pub(super) channels: Vec<Channel>,
    pub(super) shelves: Vec<Shelf>,
}

impl Sketch {
    /// Draws the bold lines.
    pub(super) fn new(seed: u64, wishes: &Wishes) -> Self {
        let size = (f64::from(wishes.width_km) * 1_000.0, f64::from(wishes.height_km) * 1_000.0);
        let mut dice = Dice::new(seed, "sketch");
        match wishes.character {
            Character::Mixed => Self::archipelago(&mut dice, size, wishes),
            Character::Skerries => Self::skerries(seed, &mut dice, size, wishes),
            Character::SeaLochs => Self::sea_lochs(seed, &mut dice, size, wishes),
            Character::Lagoon => Self::lagoon(seed, &mut dice, size, wishes),
            Character::Cliffs => Self::cliffs(seed, &mut dice, size, wishes),
            Character::Estuary => Self::estuary(seed, &mut dice, size, wishes),
        }
    }

    /// Nothing but the open sea and a body.
    fn empty(size: Xy, grain: Xy, style: Style, body: Body) -> Self {
        let k = (size.0 * size.1 / (30_000.0 * 22_000.0)).sqrt();
        let (ridges, channels, shelves) = (Vec::new(), Vec::new(), Vec::new());
        Self { size, k, grain, flood: grain, style, body, ridges, channels, shelves }
    }
}

/// How far apart two places are.
pub(super) fn distance(a: Xy, b: Xy) -> f64 {
    let (dx, dy) = (a.0 - b.0, a.1 - b.1);
    (dx * dx + dy * dy).sqrt()
}

/// How far a place is from a segment, and how far along the nearest point lies (0 to 1).
pub(super) fn to_segment(p: Xy, a: Xy, b: Xy) -> (f64, f64) {
    let (dx, dy) = (b.0 - a.0, b.1 - a.1);
    let square = dx * dx + dy * dy;
    let t = if square > 0.0 { ((p.0 - a.0) * dx + (p.1 - a.1) * dy) / square } else { 0.0 };
    let t = t.clamp(0.0, 1.0);
    (distance(p, (a.0 + dx * t, a.1 + dy * t)), t)
}
