//! GPX, the exchange format of receivers: version 1.1 read and written, 1.0 read.
//!
//! It is read a piece at a time, so that the memory taken is what is kept, whatever the size of the file.
//!
//! A route goes out as one `rte`. Each of its points is an `rtept` with `name`, the note as `cmt`, and the leg to
//! it and its reference as `desc`. The vertices of a traced leg are points between, so that a receiver follows
//! the shore. What GPX has no place for is in `extensions`, in the words of the route file: `s:route` what the
//! route has beside its points, `s:point` how long the group stays and how the leg there runs, `s:between` what
//! marks a vertex. A program that does not know them sees a plain route; this one gets all of it back. No `time`
//! is written: in GPX it is when a point was made, and a planned clock time there would be read as that.

mod element;
mod file;
mod point;
mod track;
mod write;
mod xml;

#[cfg(test)]
mod tests;

use std::io::Read;

use super::export::{Export, Written};
use super::{Fault, Foreign};

/// The namespace of GPX 1.1.
pub const NAMESPACE: &str = "http://www.topografix.com/GPX/1/1";
/// What this program calls itself as the writer of a file.
const CREATOR: &str = "Strandline";
/// The namespace of GPX 1.0.
const NAMESPACE_1_0: &str = "http://www.topografix.com/GPX/1/0";
/// The namespace of what this program adds, in the form of the route file.
pub const OWN_NAMESPACE: &str = "urn:strandline:route:1";

/// What a GPX file holds, read as a stream.
///
/// ```
/// let text = r#"<gpx version="1.1" creator="x" xmlns="http://www.topografix.com/GPX/1/1">
///   <wpt lat="52.2412" lon="-27.1398"><name>Slip</name></wpt></gpx>"#;
/// let file = paper::exchange::gpx::read(text.as_bytes())?;
/// assert_eq!(file.waypoints[0].name, "Slip");
/// # Ok::<(), paper::exchange::Fault>(())
/// ```
///
/// # Errors
/// [`Fault`] with line and column when it is not GPX, or not within the bounds of what is read.
pub fn read(from: impl Read) -> Result<Foreign, Fault> {
    file::read(xml::Xml::new(from))
}

/// The text of a GPX 1.1 file, valid against its schema.
pub(super) fn write(export: &Export<'_>) -> Written {
    write::write(export)
}
