//! The relief: how high the ground stands at the nodes of a lattice, above and below the sea.

use super::dice::{Noise, Xy};
use super::sketch::{Ridge, Shelf, Sketch, Stop, distance, to_segment};

/// How high high water stands above chart datum, in metres: the shore is drawn there.
pub(super) const HIGH_WATER: f64 = 4.6;
/// The sides of the lattice's cells, in metres.
pub(super) const CELL: f64 = 40.0;
/// The bold lines are worked out at every so many nodes and drawn out between.
const STRIDE: usize = 2;

/// Where no ridge is near, in metres above high water.
const SEA_BED: f64 = -70.0;
/// Ridges whose heights differ by less run into each other, in metres.
const ROUNDING: f64 = 26.0;
/// Where no channel is near.
const NO_VALLEY: f64 = 400.0;
/// How steeply a channel's sides rise.
const BANK: f64 = 0.16;
/// How deep the ground falls far from a ridge, and how far from it half of that.
const FALL: (f64, f64) = (80.0, 1_250.0);

/// Heights above chart datum at the nodes of a lattice, in rows from the south-west.
#[derive(Debug, Clone)]
pub(super) struct Relief {
    pub(super) columns: usize,
    pub(super) rows: usize,
    pub(super) heights: Vec<f64>,
}

impl Relief {
    /// The relief of a sketch.
    pub(super) fn new(seed: u64, sketch: &Sketch) -> Self {
        let columns = (sketch.size.0 / CELL) as usize + 1;
        let rows = (sketch.size.1 / CELL) as usize + 1;
        let bold = Bold::new(seed, sketch, columns, rows);
        let detail = Detail::new(seed, sketch.grain);
        let mut heights = Vec::with_capacity(columns * rows);
        for row in 0..rows {
            for column in 0..columns {
                let at = (column as f64 * CELL, row as f64 * CELL);
                heights.push(HIGH_WATER + detail.on(&bold.at(column, row), at));
            }
        }
        Self { columns, rows, heights }
    }

    /// The index of a node.
    pub(super) fn index(&self, column: usize, row: usize) -> usize {
        row * self.columns + column
    }

    /// The place of a node.
    pub(super) fn place(&self, index: usize) -> Xy {
        ((index % self.columns) as f64 * CELL, (index / self.columns) as f64 * CELL)
    }

    /// Calls `each` with the up to eight nodes about a node.
    pub(super) fn around(&self, node: usize, mut each: impl FnMut(usize)) {
        let (column, row) = (node % self.columns, node / self.columns);
        for up in row.saturating_sub(1)..=(row + 1).min(self.rows - 1) {
            for across in column.saturating_sub(1)..=(column + 1).min(self.columns - 1) {
                if (across, up) != (column, row) {
                    each(self.index(across, up));
                }
            }
        }
    }

    /// The node nearest to a place.
    pub(super) fn node(&self, at: Xy) -> usize {
        let column = ((at.0 / CELL + 0.5) as usize).min(self.columns - 1);
        let row = ((at.1 / CELL + 0.5) as usize).min(self.rows - 1);
        self.index(column, row)
    }

    /// The height at the node nearest to a place.
    pub(super) fn height(&self, at: Xy) -> f64 {
        self.heights[self.node(at)]
    }
}

/// What the bold lines say at one place, heights above high water.
#[derive(Debug, Clone, Copy, Default)]
struct Ground {
    /// Of the ridges and the sea bed between them.
    base: f64,
    /// Of the valley that a channel cuts; far above the base where there is none.
    valley: f64,
    /// How much of a skerry shelf this is, 0 to 1.
    shelf: f64,
}

/// The bold lines' ground at every second node.
struct Bold {
    columns: usize,
    ground: Vec<Ground>,
}

impl Bold {
    fn new(seed: u64, sketch: &Sketch, columns: usize, rows: usize) -> Self {
        let warp = Warp::new(seed, sketch.size);
        let lines = Lines::new(seed, sketch);
        let (across, up) = (columns / STRIDE + 2, rows / STRIDE + 2);
        let stride = CELL * STRIDE as f64;
        let mut ground = Vec::with_capacity(across * up);
        for row in 0..up {
            for column in 0..across {
                let at = (column as f64 * stride, row as f64 * stride);
                ground.push(lines.ground(sketch.size, at, warp.at(at)));
            }
        }
        Self { columns: across, ground }
    }

    /// The ground at a node, drawn out between the four about it.
    fn at(&self, column: usize, row: usize) -> Ground {
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
        Ground { base: mix(|g| g.base), valley: mix(|g| g.valley), shelf: mix(|g| g.shelf) }
    }
}

/// Bends the bold lines, so that none is straight.
struct Warp {
    layers: [(Noise, Noise, f64); 3],
}

impl Warp {
    fn new(seed: u64, size: Xy) -> Self {
        let k = (size.0 / 30_000.0).min(1.0);
        let layer = |purpose: u64, wavelength: f64, by: f64| {
            (
                Noise::new(seed, purpose, wavelength * k),
                Noise::new(seed, purpose + 100, wavelength * k),
                by * k,
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
    shelves: &'a [Shelf],
    patches: (Noise, Noise),
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
            shelves: &sketch.shelves,
            patches: (Noise::new(seed, 31, 2_300.0), Noise::new(seed, 32, 900.0)),
        }
    }

    /// The ground at a place whose bent place is `bent`.
    fn ground(&self, size: Xy, at: Xy, bent: Xy) -> Ground {
        let shelf = self.shelves.iter().fold(0.0_f64, |most, s| most.max(plateau(s, bent)));
        let patches = || 1.0 + 0.9 * self.patches.0.at(at) + 0.5 * self.patches.1.at(at);
        let shelf = if shelf > 0.0 { (shelf * patches()).clamp(0.0, 1.0) } else { 0.0 };
        let edge = at.0.min(at.1).min(size.0 - at.0).min(size.1 - at.1);
        // The sea runs round the chart: the ground sinks towards its edges.
        let sink = (1_100.0 - edge).max(0.0) / 1_100.0;
        Ground {
            base: self.base(bent) - 260.0 * sink * sink,
            valley: self.valley(bent),
            shelf: shelf * (1.0 - sink).max(0.0),
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
        self.cuts.iter().fold(NO_VALLEY, |low, (a, b, reach)| {
            // Beyond its reach a cut rises as a bank does.
            let off = low.max(0.0) / BANK;
            if reach.is_beyond(bent, off) { low } else { low.min(cut(a, b, bent)) }
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

fn cut(a: &Stop, b: &Stop, at: Xy) -> f64 {
    let (d, t) = to_segment(at, a.at, b.at);
    let reach = a.reach + (b.reach - a.reach) * t;
    let floor = a.floor + (b.floor - a.floor) * t;
    let u = d / reach;
    if u < 1.0 { floor * (1.0 - u * u) } else { BANK * (d - reach) }
}

fn plateau(shelf: &Shelf, at: Xy) -> f64 {
    let u = distance(at, shelf.middle) / (1.35 * shelf.radius);
    let rest = (1.0 - u * u).max(0.0);
    rest * (2.0 - rest)
}

/// The greater of two, rounded where they are within `reach` of each other.
fn smooth_max(a: f64, b: f64, reach: f64) -> f64 {
    let near = (reach - (a - b).abs()).max(0.0) / reach;
    a.max(b) + near * near * reach / 4.0
}

/// Roughness at every size from a hill down to a boulder field.
struct Detail {
    hills: [(Noise, f64); 5],
    skerries: [(Noise, f64); 4],
    grain: Xy,
}

impl Detail {
    fn new(seed: u64, grain: Xy) -> Self {
        let layer = |purpose, wavelength, height| (Noise::new(seed, purpose, wavelength), height);
        Self {
            hills: [
                layer(11, 1_700.0, 66.0),
                layer(12, 800.0, 52.0),
                layer(13, 390.0, 32.0),
                layer(14, 190.0, 20.0),
                layer(15, 95.0, 11.0),
            ],
            skerries: [
                layer(21, 620.0, 11.0),
                layer(22, 280.0, 9.0),
                layer(23, 140.0, 5.0),
                layer(24, 80.0, 2.6),
            ],
            grain,
        }
    }

    /// The height above high water of ground with its roughness.
    fn on(&self, ground: &Ground, at: Xy) -> f64 {
        let low = ground.base.min(ground.valley);
        if !(-66.0..150.0).contains(&low) && ground.shelf <= 0.0 {
            return low;
        }
        // Ridges run with the grain: along it the roughness is drawn out.
        let along = (at.0 * self.grain.0 + at.1 * self.grain.1) * 0.55;
        let across = at.0 * self.grain.1 - at.1 * self.grain.0;
        let laid = (along, across);
        let layer = |(noise, height): &(Noise, f64)| height * noise.at(laid);
        let layers = self.hills.each_ref().map(layer);
        let deep = (-ground.base - 8.0).max(0.0) / 26.0;
        let hills = sum(&layers) / (1.0 + deep * deep);
        let shelf = shelf_height(ground.shelf, || sum(&self.skerries.each_ref().map(layer)));
        let open = smooth_max(ground.base + hills, shelf, 4.0);
        // A channel keeps its floor: only the smaller roughness reaches it, most at the shores.
        let under = ground.valley / 6.0;
        let share = 0.25 + 0.4 / (1.0 + under * under);
        let bed = ground.valley + share * sum(&layers[2..]);
        open.min(bed)
    }
}

fn sum(layers: &[f64]) -> f64 {
    layers.iter().fold(0.0, |sum, layer| sum + layer)
}

/// The height of a skerry shelf above high water, where there is one.
fn shelf_height(share: f64, rough: impl Fn() -> f64) -> f64 {
    if share <= 0.0 {
        return -400.0;
    }
    let rest = 1.0 - share;
    -6.5 - 30.0 * rest * rest + (0.35 + 0.65 * share) * rough()
}
