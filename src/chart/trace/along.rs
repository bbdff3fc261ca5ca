//! Pieces along the shore.

use super::near::Near;
use super::scale::Scale;
use super::section::Section;
use super::{Kind, TraceError, Watch, Wishes, offing, taut};
use crate::Point;
use crate::coast::Coast;

/// A piece along the shore, from the place of one anchor on the line to that of the next.
#[derive(Debug, Clone)]
pub(super) struct Along {
    pub(super) kind: Kind,
    pub(super) points: Vec<Point>,
    /// The anchors themselves, from which stubs lead to the ends of the points if they lie off.
    pub(super) ashore: [Point; 2],
}

/// Lays `section` as wished.
///
/// # Errors
/// [`TraceError::CalledOff`] by `watch`.
pub(super) fn lay(
    coast: &Coast,
    section: &Section<'_>,
    wishes: Wishes,
    watch: Watch<'_>,
) -> Result<Along, TraceError> {
    if wishes.stand_off > 0.0 {
        return offing::lay(coast, section, wishes, watch);
    }
    let (land, round, way) = (section.land(), section.round, section.way);
    let kind = Kind::Along { line: section.line.id(), way, land, round, off: None };
    let points = if wishes.step > 0.0 {
        let scale = Scale::new(coast.grid());
        let near = Near::new(coast, &scale, wishes.step * scale.at(section.from.at) / 2.0, 0.0);
        taut::smoothed(section, wishes.step, &near, &scale, watch)?
    } else {
        section.points()
    };
    Ok(Along { kind, points, ashore: [section.from.at, section.to.at] })
}
