//! Everything of a chart that lies under its names and symbols, as dots for one view.

use std::sync::Arc;

use super::fill::Filler;
use super::line::stroke;
use super::mask::Mask;
use super::raster::Raster;
use super::shapes::{Band, Shapes};
use super::shore::Shorer;
use crate::coast::detail::Shores;

/// The dots of a view, a set for every kind of ground and line. Sets overlap: what is drawn over
/// what is for the one who looks to decide.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Layers {
    /// Land, without the lakes in it.
    pub land: Mask,
    /// Ground that dries and is not covered now.
    pub drying: Mask,
    /// Ground that dries, where the tide covers it now.
    pub covered: Mask,
    /// Water of each of [`Band::DRAWN`]; no dot is in two of them.
    pub depths: [Mask; Band::DRAWN.len()],
    /// Where a stream breaks.
    pub races: Mask,
    /// High water lines, of the sea and of lakes.
    pub shore: Mask,
    /// Edges of drying ground, covered or not.
    pub drying_edge: Mask,
}

/// Draws the dots of one view after the other in the same room, and not again while nothing that
/// they hang on has changed.
#[derive(Debug, Clone, Default)]
pub struct Drawing {
    layers: Layers,
    /// What the layers show.
    of: Option<(Arc<Shapes>, Arc<Shores>, Raster)>,
    /// Which drying areas they show as covered.
    covered: Vec<bool>,
    room: Mask,
    shorer: Shorer,
}

impl Drawing {
    /// The dots of a chart in one view: its areas, and its shores at the level of detail that the
    /// dots can show. `covered` says of each drying area, in the chart's order, whether the tide
    /// covers it; those that it does not reach are bare.
    pub fn layers(
        &mut self,
        shapes: &Arc<Shapes>,
        shores: &Arc<Shores>,
        raster: &Raster,
        covered: &[bool],
    ) -> &Layers {
        let same = self.of.as_ref().is_some_and(|(s, c, r)| {
            Arc::ptr_eq(s, shapes) && Arc::ptr_eq(c, shores) && r == raster
        });
        if !same {
            self.of = Some((shapes.clone(), shores.clone(), *raster));
            self.areas(shapes, raster);
            self.shores(shores, raster);
        }
        if !same || self.covered != covered {
            self.covered.clear();
            self.covered.extend_from_slice(covered);
            self.drying(shapes, raster);
        }
        &self.layers
    }

    fn drying(&mut self, shapes: &Shapes, raster: &Raster) {
        let Layers { drying, covered, .. } = &mut self.layers;
        let mut filler = Filler::new(raster, &mut self.room);
        drying.reset(raster.width(), raster.height());
        covered.reset(raster.width(), raster.height());
        let flags = self.covered.iter().copied().chain(std::iter::repeat(false));
        for (area, is_covered) in shapes.drying.iter().zip(flags) {
            let mask = if is_covered { &mut *covered } else { &mut *drying };
            filler.fill(area, |inside, block| mask.add(inside, block));
        }
    }

    fn areas(&mut self, shapes: &Shapes, raster: &Raster) {
        let Layers { depths, races, drying_edge, .. } = &mut self.layers;
        let (width, height) = (raster.width(), raster.height());
        let mut filler = Filler::new(raster, &mut self.room);
        races.reset(width, height);
        for area in &shapes.races {
            filler.fill(area, |inside, block| races.add(inside, block));
        }
        depths.iter_mut().for_each(|mask| mask.reset(width, height));
        for (band, area) in &shapes.depths {
            filler.fill(area, |inside, block| {
                for (drawn, mask) in Band::DRAWN.iter().zip(&mut *depths) {
                    if drawn == band {
                        mask.add(inside, block);
                    } else {
                        mask.remove(inside, block);
                    }
                }
            });
        }
        drying_edge.reset(width, height);
        for area in &shapes.drying {
            stroke(drying_edge, raster, &area.edge);
        }
    }

    fn shores(&mut self, shores: &Shores, raster: &Raster) {
        let Layers { land, shore, .. } = &mut self.layers;
        land.reset(raster.width(), raster.height());
        shore.reset(raster.width(), raster.height());
        let coast = shores.for_scale(raster.metres_per_dot());
        let turn = shores.turn();
        self.shorer.draw(coast, raster, land, shore);
        // A world chart goes on beyond the antimeridian with its other end.
        for turn in turn.into_iter().flat_map(|turn| [-turn, turn]) {
            self.shorer.draw(coast, &raster.moved_west(turn), land, shore);
        }
    }
}
