//! Many positions at once.

use super::series::Complex;
use super::sphere::OnSphere;
use super::{REACH, TooFarFromMeridian, TransverseMercator};
use crate::grid::GridPoint;
use crate::{Datum, Position};

/// How many positions are worked on together.
const TOGETHER: usize = 8;

impl<D: Datum> TransverseMercator<D> {
    /// Appends to `points` the grid points of `positions`, in their order: those of
    /// [`forward`](Self::forward), without convergence and scale, in a fraction of the time.
    ///
    /// # Errors
    /// [`TooFarFromMeridian`] when one is outside the projection's range; what was appended before
    /// it stays.
    ///
    /// ```
    /// use nav::{Grid, Position};
    /// let shore = [Position::from_degrees(57.1, -2.1)?, Position::from_degrees(57.2, -2.0)?];
    /// let mut points = Vec::new();
    /// let utm = Grid::parse("UTM:30N")?;
    /// utm.forward_all(&shore, &mut points)?;
    /// assert_eq!(points[1], utm.forward(shore[1])?.point);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn forward_all(
        &self,
        positions: &[Position<D>],
        points: &mut Vec<GridPoint>,
    ) -> Result<(), TooFarFromMeridian> {
        points.reserve(positions.len());
        let (blocks, rest) = positions.as_chunks();
        for block in blocks {
            match self.near(block) {
                Some(near) => points.extend(near),
                None => self.one_by_one(block, points)?,
            }
        }
        self.one_by_one(rest, points)
    }

    fn one_by_one(
        &self,
        positions: &[Position<D>],
        points: &mut Vec<GridPoint>,
    ) -> Result<(), TooFarFromMeridian> {
        for position in positions {
            let sphere = OnSphere::of(Self::E2, *position, self.lon0);
            let place = sphere.place();
            if place.im.abs() > REACH {
                return Err(self.too_far());
            }
            points.push(self.on_grid(self.forward.moved(place, sphere.doubled())));
        }
        Ok(())
    }

    /// The points of positions that are all some degrees from the meridian at most.
    fn near(&self, positions: &[Position<D>; TOGETHER]) -> Option<[GridPoint; TOGETHER]> {
        let (mut east, mut north) = ([0.0; TOGETHER], [0.0; TOGETHER]);
        let mut tangents = [0.0; TOGETHER];
        for index in 0..TOGETHER {
            let sphere = OnSphere::of(Self::E2, positions[index], self.lon0);
            let (place, off) = sphere.near();
            let Complex { re, im } = self.forward.moved(place, sphere.doubled());
            (north[index], east[index], tangents[index]) = (re, im, off);
        }
        let all_near = tangents.into_iter().all(OnSphere::is_near);
        let point = |index| self.on_grid(Complex { re: north[index], im: east[index] });
        all_near.then(|| std::array::from_fn(point))
    }
}
