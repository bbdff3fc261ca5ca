//! Everything of a chart that lies under its names and symbols, as dots for one view.

use super::fill::Filler;
use super::line::stroke;
use super::mask::Mask;
use super::raster::Raster;
use super::shapes::{Area, Band, Shapes};

/// The dots of a view, a set for every kind of ground and line. Sets overlap: what is drawn over
/// what is for the one who looks to decide.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Layers {
    /// Land, without the lakes in it.
    pub land: Mask,
    /// Ground that dries.
    pub drying: Mask,
    /// Water of each of [`Band::DRAWN`]; no dot is in two of them.
    pub depths: [Mask; Band::DRAWN.len()],
    /// Where a stream breaks.
    pub races: Mask,
    /// High water lines, of the sea and of lakes.
    pub shore: Mask,
    /// Edges of drying ground.
    pub drying_edge: Mask,
}

impl Layers {
    /// The dots of `shapes` in one view.
    #[must_use]
    pub fn drawn(shapes: &Shapes, raster: &Raster) -> Layers {
        let empty = || Mask::new(raster.width(), raster.height());
        let mut filler = Filler::new(raster);
        let mut filled = |areas: &[Area]| {
            let mut mask = empty();
            for area in areas {
                filler.fill(area, |inside, block| mask.add(inside, block));
            }
            mask
        };
        let (land, drying, races) =
            (filled(&shapes.land), filled(&shapes.drying), filled(&shapes.races));
        let mut depths = [empty(), empty(), empty()];
        for (band, area) in &shapes.depths {
            filler.fill(area, |inside, block| {
                for (drawn, mask) in Band::DRAWN.iter().zip(&mut depths) {
                    if drawn == band {
                        mask.add(inside, block);
                    } else {
                        mask.remove(inside, block);
                    }
                }
            });
        }
        let (mut shore, mut drying_edge) = (empty(), empty());
        for edge in shapes.land.iter().flat_map(|land| &land.edges).chain(&shapes.shorelines) {
            stroke(&mut shore, raster, edge);
        }
        for edge in shapes.drying.iter().flat_map(|area| &area.edges) {
            stroke(&mut drying_edge, raster, edge);
        }
        Layers { land, drying, depths, races, shore, drying_edge }
    }
}
