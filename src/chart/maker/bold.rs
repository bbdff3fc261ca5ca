//! The bold lines of a sketch turned into ground, without its roughness.

use super::body::Soft;
use super::dice::{Noise, Sheet, Xy};
use super::near::{Disc, Lines, Near, ROUNDING, Row, SIDE};
use super::relief::Relief;
use super::sketch::Sketch;

/// The bold lines are worked out at every so many nodes and drawn out between.
const STRIDE: usize = 2;

/// What the bold lines say at one place, heights above high water.
#[derive(Debug, Clone, Copy, Default)]
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
        let ready = Ready::new(seed, sketch, relief);
        let (across, up) = (relief.columns / STRIDE + 2, relief.rows / STRIDE + 2);
        let mut ground = vec![Ground::default(); across * up];
        for low in (0..up).step_by(SIDE) {
            for left in (0..across).step_by(SIDE) {
                let places: [[Xy; SIDE]; SIDE] = std::array::from_fn(|row| {
                    let row = (low + row) * STRIDE;
                    std::array::from_fn(|column| relief.at((left + column) * STRIDE, row))
                });
                let rows = ready.square(&places);
                let wide = SIDE.min(across - left);
                for (row, made) in (low..up).zip(rows) {
                    let start = row * across + left;
                    ground[start..start + wide].copy_from_slice(&made[..wide]);
                }
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
    layers: [(Sheet, Sheet, f64); 3],
}

impl Warp {
    fn new(seed: u64, sketch: &Sketch, relief: &Relief) -> Self {
        let k = (sketch.size.0 / 30_000.0).min(1.0);
        let bend = sketch.style.bend;
        let (low, high) = relief.corners();
        let sheet = |purpose: u64, wavelength: f64| {
            Sheet::new(Noise::new(seed, purpose, wavelength * k), low, high)
        };
        let layer = |purpose: u64, wavelength: f64, by: f64| {
            (sheet(purpose, wavelength), sheet(purpose + 100, wavelength), by * k * bend)
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

/// A sketch made ready for many places.
struct Ready<'a> {
    warp: Warp,
    lines: Lines<'a>,
    patches: (Sheet, Sheet),
    sketch: &'a Sketch,
}

impl<'a> Ready<'a> {
    fn new(seed: u64, sketch: &'a Sketch, relief: &Relief) -> Self {
        let (low, high) = relief.corners();
        let sheet =
            |purpose, wavelength| Sheet::new(Noise::new(seed, purpose, wavelength), low, high);
        Self {
            warp: Warp::new(seed, sketch, relief),
            lines: Lines::new(sketch),
            patches: (sheet(31, 2_300.0), sheet(32, 900.0)),
            sketch,
        }
    }

    /// The ground at a square of places.
    fn square(&self, places: &[[Xy; SIDE]; SIDE]) -> [[Ground; SIDE]; SIDE] {
        let bent = places.map(|row| row.map(|at| self.warp.at(at)));
        let near = self.lines.near(&Disc::about(bent.iter().flatten().copied()));
        std::array::from_fn(|row| self.row(&near, &places[row], &bent[row]))
    }

    /// The ground at a row of places whose bent places are `bent`.
    fn row(&self, near: &Near<'_>, places: &[Xy; SIDE], bent: &[Xy; SIDE]) -> [Ground; SIDE] {
        let Sketch { body, size, .. } = self.sketch;
        let bodies = bent.map(|bent| body.ground(bent));
        let (xs, ys) = (bent.map(|at| at.0), bent.map(|at| at.1));
        let rises: Row = bodies.map(|(rise, _)| rise.unwrap_or(f64::MIN));
        let (base, valley) = (near.base(&xs, &ys, &rises), near.valley(&xs, &ys));
        std::array::from_fn(|i| {
            // The ground sinks towards those edges of the chart that are open sea.
            let sink = (1_100.0 - body.to_sea_edge(places[i], *size)).max(0.0) / 1_100.0;
            let (rise, soft) = bodies[i];
            let base = rise.map_or(base[i], |rise| smooth_max(base[i], rise, ROUNDING));
            Ground {
                base: base - 260.0 * sink * sink,
                valley: valley[i],
                shelf: self.shelf(near, places[i], bent[i]) * (1.0 - sink).max(0.0),
                soft: Soft { height: soft.height - 40.0 * sink * sink, ..soft },
            }
        })
    }

    /// How much of a skerry shelf a place is, in patches, 0 to 1.
    fn shelf(&self, near: &Near<'_>, at: Xy, bent: Xy) -> f64 {
        let shelf = near.shelf(bent);
        if shelf <= 0.0 {
            return 0.0;
        }
        let patches = 1.0 + 0.9 * self.patches.0.at(at) + 0.5 * self.patches.1.at(at);
        (shelf * patches).clamp(0.0, 1.0)
    }
}

/// The greater of two, rounded where they are within `reach` of each other.
pub(super) fn smooth_max(a: f64, b: f64, reach: f64) -> f64 {
    let near = (reach - (a - b).abs()).max(0.0) / reach;
    a.max(b) + near * near * reach / 4.0
}
