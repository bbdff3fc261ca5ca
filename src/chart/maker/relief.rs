//! The relief: how high the ground stands at the nodes of a lattice, above and below the sea.

use super::dice::{Noise, Xy};
use super::sketch::{Channel, Ridge, Shelf, Sketch, distance, to_segment};

/// How high high water stands above chart datum, in metres: the shore is drawn there.
pub(super) const HIGH_WATER: f64 = 4.6;
/// The sides of the lattice's cells, in metres.
pub(super) const CELL: f64 = 40.0;
/// The bold lines are worked out at every so many nodes and drawn out between.
const STRIDE: usize = 2;

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
        let patches = (Noise::new(seed, 31, 2_300.0), Noise::new(seed, 32, 900.0));
        let (across, up) = (columns / STRIDE + 2, rows / STRIDE + 2);
        let stride = CELL * STRIDE as f64;
        let mut ground = Vec::with_capacity(across * up);
        for row in 0..up {
            for column in 0..across {
                let at = (column as f64 * stride, row as f64 * stride);
                ground.push(ground_at(sketch, &patches, at, warp.at(at)));
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

fn ground_at(sketch: &Sketch, patches: &(Noise, Noise), at: Xy, bent: Xy) -> Ground {
    let base =
        sketch.ridges.iter().fold(-70.0, |top, ridge| smooth_max(top, rise(ridge, bent), 26.0));
    let valley = sketch.channels.iter().fold(400.0_f64, |low, c| low.min(cut(c, bent)));
    let shelf = sketch.shelves.iter().fold(0.0_f64, |most, s| most.max(plateau(s, bent)));
    let shelf = (shelf * (1.0 + 0.9 * patches.0.at(at) + 0.5 * patches.1.at(at))).clamp(0.0, 1.0);
    let edge = at.0.min(at.1).min(sketch.size.0 - at.0).min(sketch.size.1 - at.1);
    // The sea runs round the chart: the ground sinks towards its edges.
    let sink = (1_100.0 - edge).max(0.0) / 1_100.0;
    Ground { base: base - 260.0 * sink * sink, valley, shelf: shelf * (1.0 - sink).max(0.0) }
}

fn rise(ridge: &Ridge, at: Xy) -> f64 {
    let (d, t) = to_segment(at, ridge.from, ridge.to);
    let radius = ridge.radius.0 + (ridge.radius.1 - ridge.radius.0) * t;
    let u = d / radius;
    let rest = 1.0 - u * u;
    if rest > 0.0 {
        ridge.height * rest * (0.42 + 0.58 * rest)
    } else {
        -80.0 * (1.0 - 1.0 / (1.0 + (d - radius) / 1_250.0))
    }
}

fn cut(channel: &Channel, at: Xy) -> f64 {
    let mut low = 400.0_f64;
    for pair in channel.path.windows(2) {
        let (a, b) = (pair[0], pair[1]);
        let (d, t) = to_segment(at, a.at, b.at);
        let reach = a.reach + (b.reach - a.reach) * t;
        let floor = a.floor + (b.floor - a.floor) * t;
        let u = d / reach;
        low = low.min(if u < 1.0 { floor * (1.0 - u * u) } else { 0.16 * (d - reach) });
    }
    low
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
        let rough = |layers: &[(Noise, f64)]| {
            layers.iter().fold(0.0, |sum, (noise, height)| sum + height * noise.at(laid))
        };
        let deep = (-ground.base - 8.0).max(0.0) / 26.0;
        let hills = rough(&self.hills) / (1.0 + deep * deep);
        let open = smooth_max(ground.base + hills, self.shelf_height(ground, rough), 4.0);
        // A channel keeps its floor: only the smaller roughness reaches it, most at the shores.
        let under = ground.valley / 6.0;
        let share = 0.25 + 0.4 / (1.0 + under * under);
        let bed = ground.valley + share * rough(&self.hills[2..]);
        open.min(bed)
    }

    fn shelf_height(&self, ground: &Ground, rough: impl Fn(&[(Noise, f64)]) -> f64) -> f64 {
        if ground.shelf <= 0.0 {
            return -400.0;
        }
        let s = ground.shelf;
        -6.5 - 30.0 * (1.0 - s) * (1.0 - s) + (0.35 + 0.65 * s) * rough(&self.skerries)
    }
}
