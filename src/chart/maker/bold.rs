//! The bold lines of a sketch turned into ground, without its roughness.

use super::body::Soft;
use super::dice::{Noise, Xy};
use super::relief::Relief;
use super::sketch::{Ridge, Shelf, Sketch, Stop, distance, to_segment};

/// The bold lines are worked out at every so many nodes and drawn out between.
const STRIDE: usize = 2;

/// Where no ridge is near, in metres above high water.
const SEA_BED: f64 = -70.0;
/// Ridges whose heights differ by less run into each other, in metres.
const ROUNDING: f64 = 26.0;
/// Where no channel is near.
const NO_VALLEY: f64 = 400.0;
/// How deep the ground falls far from a ridge, and how far from it half of that.
const FALL: (f64, f64) = (80.0, 1_250.0);

/// What the bold lines say at one place, heights above high water.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ground {
    /// Of the ridges and the sea bed between them.
    pub(super) base: f64,
    /// Of the valley that a channel cuts; far above the base where there is none.
    pub(super) valley: f64,
    /// How much of a skerry shelf this is, 0 to 1.
    pub(super) shelf: f64,
    /// Of sand and mud.
    pub(super) soft: Soft,
}

/// The bold lines' ground at every second node.
pub(super) struct Bold {
    columns: usize,
    ground: Vec<Ground>,
}

impl Bold {
    /// The ground of a sketch at the nodes of a relief.
    pub(super) fn new(seed: u64, sketch: &Sketch, relief: &Relief) -> Self {
        let warp = Warp::new(seed, sketch);
        let lines = Lines::new(seed, sketch);
        let (across, up) = (relief.columns / STRIDE + 2, relief.rows / STRIDE + 2);
        let mut ground = Vec::with_capacity(across * up);
        for row in 0..up {
            for column in 0..across {
                let at = relief.at(column * STRIDE, row * STRIDE);
                ground.push(lines.ground(at, warp.at(at)));
            }
        }
        Self { columns: across, ground }
    }

    /// The ground at a node, drawn out between the four about it.
    pub(super) fn at(&self, column: usize, row: usize) -> Ground {
        let corner = (row / STRIDE) * self.columns + column / STRIDE;
        let u = (column % STRIDE) as f64 / STRIDE as f64;
        let v = (row % STRIDE) as f64 / STRIDE as f64;
        let g = &self.ground;
        let mix = |part: fn(&Ground) -> f64| {
            let low = part(&g[corner]) * (1.0 - u) + part(&g[corner + 1]) * u;
            let next = corner + self.columns;
            let high = part(&g[next]) * (1.0 - u) + part(&g[next + 1]) * u;
            low * (1.0 - v) + high * v
        };
        let soft = Soft { height: mix(|g| g.soft.height), rough: mix(|g| g.soft.rough) };
        Ground { base: mix(|g| g.base), valley: mix(|g| g.valley), shelf: mix(|g| g.shelf), soft }
    }
}

/// Bends the bold lines, so that none is straight.
struct Warp {
    layers: [(Noise, Noise, f64); 3],
}

impl Warp {
    fn new(seed: u64, sketch: &Sketch) -> Self {
        let k = (sketch.size.0 / 30_000.0).min(1.0);
        let bend = sketch.style.bend;
        let layer = |purpose: u64, wavelength: f64, by: f64| {
            (
                Noise::new(seed, purpose, wavelength * k),
                Noise::new(seed, purpose + 100, wavelength * k),
                by * k * bend,
            )
        };
        Self {
            layers: [layer(1, 5_200.0, 950.0), layer(2, 2_100.0, 420.0), layer(3, 900.0, 230.0)],
        }
    }

    fn at(&self, at: Xy) -> Xy {
        self.layers.iter().fold(at, |bent, (east, north, by)| {
            (bent.0 + by * east.at(at), bent.1 + by * north.at(at))
        })
    }
}

/// The bold lines, with what tells quickly that one is too far off to matter.
struct Lines<'a> {
    ridges: Vec<(&'a Ridge, Reach)>,
    cuts: Vec<(Stop, Stop, Reach)>,
    patches: (Noise, Noise),
    sketch: &'a Sketch,
}

/// A disc about a line.
struct Reach {
    middle: Xy,
    radius: f64,
}

impl Reach {
    fn new(from: Xy, to: Xy, wide: f64) -> Self {
        let middle = ((from.0 + to.0) / 2.0, (from.1 + to.1) / 2.0);
        Self { middle, radius: distance(from, to) / 2.0 + wide + 1.0 }
    }

    /// Whether a place is surely farther than `off` from the line's edge.
    fn is_beyond(&self, at: Xy, off: f64) -> bool {
        let (dx, dy) = (at.0 - self.middle.0, at.1 - self.middle.1);
        let far = self.radius + off;
        dx * dx + dy * dy > far * far
    }
}

impl<'a> Lines<'a> {
    fn new(seed: u64, sketch: &'a Sketch) -> Self {
        let ridge = |r: &'a Ridge| (r, Reach::new(r.from, r.to, r.radius.0.max(r.radius.1)));
        let pairs = sketch.channels.iter().flat_map(|c| c.path.windows(2));
        let cut =
            |p: &[Stop]| (p[0], p[1], Reach::new(p[0].at, p[1].at, p[0].reach.max(p[1].reach)));
        Self {
            ridges: sketch.ridges.iter().map(ridge).collect(),
            cuts: pairs.map(cut).collect(),
            patches: (Noise::new(seed, 31, 2_300.0), Noise::new(seed, 32, 900.0)),
            sketch,
        }
    }

    /// The ground at a place whose bent place is `bent`.
    fn ground(&self, at: Xy, bent: Xy) -> Ground {
        let Sketch { body, shelves, size, .. } = self.sketch;
        let shelf = shelves.iter().fold(0.0_f64, |most, s| most.max(plateau(s, bent)));
        let patches = || 1.0 + 0.9 * self.patches.0.at(at) + 0.5 * self.patches.1.at(at);
        let shelf = if shelf > 0.0 { (shelf * patches()).clamp(0.0, 1.0) } else { 0.0 };
        // The ground sinks towards those edges of the chart that are open sea.
        let sink = (1_100.0 - body.to_sea_edge(at, *size)).max(0.0) / 1_100.0;
        let base = self.base(bent);
        let base = body.rise(bent).map_or(base, |rise| smooth_max(base, rise, ROUNDING));
        let soft = body.soft(bent);
        Ground {
            base: base - 260.0 * sink * sink,
            valley: self.valley(bent),
            shelf: shelf * (1.0 - sink).max(0.0),
            soft: Soft { height: soft.height - 40.0 * sink * sink, ..soft },
        }
    }

    fn base(&self, bent: Xy) -> f64 {
        let mut top = SEA_BED;
        let mut off = f64::MAX;
        for (ridge, reach) in &self.ridges {
            if off < f64::MAX && reach.is_beyond(bent, off) {
                continue;
            }
            let before = top;
            top = smooth_max(top, rise(ridge, bent), ROUNDING);
            if top > before {
                off = matters_within(top);
            }
        }
        top
    }

    fn valley(&self, bent: Xy) -> f64 {
        let bank = self.sketch.style.bank;
        self.cuts.iter().fold(NO_VALLEY, |low, (a, b, reach)| {
            // Beyond its reach a cut rises as a bank does.
            let off = low.max(0.0) / bank;
            if reach.is_beyond(bent, off) { low } else { low.min(cut(a, b, bank, bent)) }
        })
    }
}

/// How near a ridge must be to change ground of height `top`: further off, it lies lower by
/// more than the rounding.
fn matters_within(top: f64) -> f64 {
    let share = (ROUNDING - top) / FALL.0;
    if share >= 1.0 { f64::MAX } else { FALL.1 * share.max(0.0) / (1.0 - share.max(0.0)) }
}

fn rise(ridge: &Ridge, at: Xy) -> f64 {
    let (d, t) = to_segment(at, ridge.from, ridge.to);
    let radius = ridge.radius.0 + (ridge.radius.1 - ridge.radius.0) * t;
    let u = d / radius;
    let rest = 1.0 - u * u;
    if rest > 0.0 {
        ridge.height * rest * (0.42 + 0.58 * rest)
    } else {
        -FALL.0 * (1.0 - 1.0 / (1.0 + (d - radius) / FALL.1))
    }
}

fn cut(a: &Stop, b: &Stop, bank: f64, at: Xy) -> f64 {
    let (d, t) = to_segment(at, a.at, b.at);
    let reach = a.reach + (b.reach - a.reach) * t;
    let floor = a.floor + (b.floor - a.floor) * t;
    let u = d / reach;
    if u < 1.0 { floor * (1.0 - u * u) } else { bank * (d - reach) }
}

fn plateau(shelf: &Shelf, at: Xy) -> f64 {
    let u = distance(at, shelf.middle) / (1.35 * shelf.radius);
    let rest = (1.0 - u * u).max(0.0);
    rest * (2.0 - rest)
}

/// The greater of two, rounded where they are within `reach` of each other.
pub(super) fn smooth_max(a: f64, b: f64, reach: f64) -> f64 {
    let near = (reach - (a - b).abs()).max(0.0) / reach;
    a.max(b) + near * near * reach / 4.0
}
