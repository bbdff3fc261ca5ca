//! CSV (RFC 4180) of points: a header, then a point in each row, in order. Columns may stand in any order.

mod read;
mod write;

pub(super) use read::read;
pub(super) use write::write;

/// The kind of a route's own point, as a table says it.
const POINT: &str = "point";

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Column {
    Name,
    Lat,
    Lon,
    Reference,
    Note,
    Stop,
    Time,
    /// What a row is: [`POINT`], or a thing of the chart.
    Kind,
}

impl Column {
    /// The column of this heading, whatever the case of its letters; the first of its headings is ours.
    fn of(heading: &str) -> Option<Column> {
        let all = [
            Column::Name,
            Column::Lat,
            Column::Lon,
            Column::Reference,
            Column::Note,
            Column::Stop,
            Column::Time,
            Column::Kind,
        ];
        let heading = heading.trim().to_lowercase().replace(' ', "_");
        all.into_iter().find(|column| column.headings().contains(&heading.as_str()))
    }

    const fn headings(self) -> &'static [&'static str] {
        match self {
            Column::Name => &["name", "title"],
            Column::Lat => &["lat", "latitude", "lat_deg"],
            Column::Lon => &["lon", "long", "lng", "longitude", "lon_deg"],
            Column::Reference => &["reference", "ref", "grid_reference"],
            Column::Note => &["note", "comment", "cmt", "desc", "description"],
            Column::Stop => &["stop_min", "stop"],
            Column::Time => &["time", "time_utc", "timestamp"],
            Column::Kind => &["kind"],
        }
    }

    const fn heading(self) -> &'static str {
        match self.headings() {
            [first, ..] => first,
            [] => "",
        }
    }
}
