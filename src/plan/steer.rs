//! How a leg is steered through moving water.

/// How a leg is steered where the water moves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Steering {
    /// On the line from its start to its end, the heading changed as the stream changes.
    #[default]
    Line,
    /// On one heading from its start to its end, as on a crossing out of sight of land: chosen so
    /// that what the stream does to either side adds up and the boat comes out at the end. Its
    /// track over the ground is curved.
    OneHeading,
}

impl Steering {
    /// What two legs made one are steered by: on one heading if both were.
    pub(crate) fn joined(self, next: Steering) -> Steering {
        if self == next { self } else { Steering::Line }
    }
}

#[cfg(test)]
mod tests {
    use nav::{Length, Position};

    use crate::{Along, Document, Edit, EditError, Line, Route, Steering, Waypoint};

    fn point(lat: f64) -> Waypoint {
        Waypoint::new(Position::from_degrees(lat, 0.0).unwrap())
    }

    /// Three points, the second leg on one heading.
    fn crossing() -> Document {
        let points = vec![point(1.0), point(2.0), point(3.0).steered(Steering::OneHeading)];
        Document::new(Route { points, ..Route::new("C") }).unwrap()
    }

    fn steered(document: &Document) -> Vec<bool> {
        let points = &document.route().points;
        points.iter().map(|point| point.steer == Steering::OneHeading).collect()
    }

    fn traced() -> Option<Along> {
        let line = Line::new([point(2.5).at]).unwrap();
        Some(Along::new(line, &[], Length::ZERO, Length::ZERO))
    }

    #[test]
    fn each_edit_keeps_or_drops_how_a_leg_is_steered() {
        let after = |edit: Edit| {
            let mut document = crossing();
            document.apply(edit).unwrap();
            let steered = steered(&document);
            document.undo();
            assert_eq!(document.route(), crossing().route());
            steered
        };
        assert_eq!(
            after(Edit::Insert { index: 2, waypoint: point(2.5) }),
            [false, false, true, true]
        );
        assert_eq!(
            after(Edit::Insert { index: 1, waypoint: point(1.5) }),
            [false, false, false, true]
        );
        assert_eq!(after(Edit::Move { index: 2, to: point(4.0).at }), [false, false, true]);
        assert_eq!(after(Edit::Delete { index: 1 }), [false, false]);
        assert_eq!(after(Edit::Reverse), [false, true, false]);
        assert_eq!(after(Edit::SetAlong { index: 2, along: traced() }), [false, false, false]);
        let to_line = Edit::SetSteering { index: 2, steer: Steering::Line };
        assert_eq!(after(to_line), [false, false, false]);
        let both = Edit::SetSteering { index: 1, steer: Steering::OneHeading };
        assert_eq!(after(both.clone()), [false, true, true]);
        let mut document = crossing();
        document.apply(both).unwrap();
        assert_eq!(document.can_undo(), Some("one heading on leg 1"));
        document.apply(Edit::Delete { index: 1 }).unwrap();
        assert_eq!(steered(&document), [false, true]);
    }

    #[test]
    fn what_cannot_be_steered_is_said() {
        let mut document = crossing();
        let first = Edit::SetSteering { index: 0, steer: Steering::OneHeading };
        assert_eq!(document.apply(first), Err(EditError::NothingToSteer));
        let first = point(0.0).steered(Steering::OneHeading);
        let insert = Edit::Insert { index: 0, waypoint: first };
        assert_eq!(document.apply(insert), Err(EditError::NothingToSteer));
        document.apply(Edit::SetAlong { index: 1, along: traced() }).unwrap();
        let along = Edit::SetSteering { index: 1, steer: Steering::OneHeading };
        assert_eq!(document.apply(along), Err(EditError::OneHeadingAlong));
    }
}
