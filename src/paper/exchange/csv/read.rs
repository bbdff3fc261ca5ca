//! Points read from CSV.

use std::borrow::Cow;
use std::io::Read;

use jiff::{SignedDuration, Timestamp};
use nav::{Grid, Latitude, Longitude, OutOfRange, Position};
use plan::Waypoint;
use plan::track::{Fix, Track};

use super::{Column, POINT};
use crate::exchange::fault::{Fault, Place, Why, shown};
use crate::exchange::guard::Guard;
use crate::exchange::left::{Kind, Left};
use crate::exchange::record::{Record, RecordError, Records};
use crate::exchange::{
    Foreign, ForeignPoint, ForeignRoute, MOST_NAME, MOST_NOTE, MOST_POINTS, Own, line, moment,
};

/// The points of a table: a track where it has a column of times, else a route. References are read on `grid`.
pub(crate) fn read(from: impl Read, grid: Option<&Grid>) -> Result<Foreign, Fault> {
    // A record has a bound of its own.
    let mut guard = Guard::new(from, usize::MAX);
    let mut rows =
        Rows { grid, left: Left::default(), points: Vec::new(), things: Vec::new(), track: None };
    match rows.read(&mut guard) {
        Ok(()) => Ok(rows.foreign()),
        Err(Stop::Fault(fault)) => Err(fault),
        Err(Stop::Record(RecordError::Read(error))) => Err(guard.fault(error)),
        Err(Stop::Record(RecordError::Malformed { place, what })) => Err(Why::Csv(what).at(place)),
    }
}

enum Stop {
    Fault(Fault),
    Record(RecordError),
}

impl From<Fault> for Stop {
    fn from(fault: Fault) -> Stop {
        Stop::Fault(fault)
    }
}

impl From<RecordError> for Stop {
    fn from(error: RecordError) -> Stop {
        Stop::Record(error)
    }
}

/// What has been read.
struct Rows<'a> {
    grid: Option<&'a Grid>,
    left: Left,
    points: Vec<ForeignPoint>,
    /// Things that go with a route, and are none of its points.
    things: Vec<ForeignPoint>,
    track: Option<Track>,
}

impl Rows<'_> {
    fn read(&mut self, from: &mut Guard<impl Read>) -> Result<(), Stop> {
        let mut records = Records::new(from);
        let mut record = Record::default();
        if !records.read(&mut record)? {
            return Err(Why::NoHeader.at(Place::START).into());
        }
        let header = Header::of(&record, self.grid.is_some(), &mut self.left)?;
        let timed = header.has(Column::Time);
        self.track = timed.then(Track::default);
        while records.read(&mut record)? {
            if record.count() != header.0.len() {
                let (cells, columns) = (record.count(), header.0.len());
                let place = record.place(cells.min(columns));
                return Err(Why::Cells { cells, columns }.at(place).into());
            }
            let row = Row { header: &header, record: &record };
            match &mut self.track {
                Some(track) => row.fix(track, self.grid, &mut self.left)?,
                None if self.points.len() + self.things.len() == MOST_POINTS => {
                    let why = Why::Many { what: "points", most: MOST_POINTS };
                    return Err(why.at(record.place(0)).into());
                }
                None => {
                    let point = row.point(self.grid, &mut self.left)?;
                    let kind = row.cell(Column::Kind).0;
                    let own = matches!(kind.trim(), "" | POINT);
                    if own { &mut self.points } else { &mut self.things }.push(point);
                }
            }
        }
        Ok(())
    }

    fn foreign(self) -> Foreign {
        let route = ForeignRoute { points: self.points, ..ForeignRoute::default() };
        Foreign {
            waypoints: self.things,
            routes: Some(route).filter(|route| !route.points.is_empty()).into_iter().collect(),
            tracks: self.track.into_iter().filter(|track| !track.fixes().is_empty()).collect(),
            left_out: self.left.said(),
            ..Foreign::default()
        }
    }
}

/// What each column holds, as far as that is known.
struct Header(Vec<Option<Column>>);

impl Header {
    fn of(record: &Record, has_grid: bool, left: &mut Left) -> Result<Header, Fault> {
        let mut columns = Vec::new();
        for index in 0..record.count() {
            let heading = text_of(record.cell(index));
            let column = Column::of(&heading);
            if column.is_some() && columns.contains(&column) {
                return Err(Why::Twice(shown(&heading)).at(record.place(index)));
            }
            if column.is_none() {
                left.count(Kind::Columns);
            }
            columns.push(column);
        }
        let header = Header(columns);
        let degrees = header.has(Column::Lat) && header.has(Column::Lon);
        match (degrees, header.has(Column::Reference)) {
            (true, _) => Ok(header),
            (false, true) if has_grid => Ok(header),
            (false, true) => Err(Why::NoGrid.at(Place::START)),
            (false, false) => Err(Why::NoHeader.at(Place::START)),
        }
    }

    fn has(&self, column: Column) -> bool {
        self.index(column).is_some()
    }

    fn index(&self, column: Column) -> Option<usize> {
        self.0.iter().position(|one| *one == Some(column))
    }
}

/// The guard lets nothing else through than UTF-8.
fn text_of(cell: Cow<'_, [u8]>) -> String {
    String::from_utf8_lossy(&cell).into_owned()
}

struct Row<'a> {
    header: &'a Header,
    record: &'a Record,
}

impl Row<'_> {
    /// The text of a column and its place; empty where there is no such column.
    fn cell(&self, column: Column) -> (String, Place) {
        match self.header.index(column) {
            Some(index) => (text_of(self.record.cell(index)), self.record.place(index)),
            None => (String::new(), self.record.place(0)),
        }
    }

    fn point(&self, grid: Option<&Grid>, left: &mut Left) -> Result<ForeignPoint, Fault> {
        let at = self.position(grid)?;
        let name = line(&self.cell(Column::Name).0, MOST_NAME, left);
        let note = line(&self.cell(Column::Note).0, MOST_NOTE, left);
        let stop = self.stop()?;
        let facts = || Box::new(Own::Facts(Waypoint { stop, ..Waypoint::new(at) }));
        Ok(ForeignPoint { at, name, note, kept: None, own: (!stop.is_zero()).then(facts) })
    }

    fn fix(&self, track: &mut Track, grid: Option<&Grid>, left: &mut Left) -> Result<(), Fault> {
        let at = self.position(grid)?;
        let when = self.time(left)?;
        for column in [Column::Name, Column::Note, Column::Stop] {
            if !self.cell(column).0.trim().is_empty() {
                left.count(Kind::FixTexts);
            }
        }
        let many = Why::Many { what: "fixes in a track", most: Track::MOST };
        track.push(Fix::new(at, when)).map_err(|_| many.at(self.record.place(0)))
    }

    fn time(&self, left: &mut Left) -> Result<Option<Timestamp>, Fault> {
        let (text, place) = self.cell(Column::Time);
        if text.trim().is_empty() {
            return Ok(None);
        }
        // A space in place of the T is what tables have.
        let written = text.trim().replacen(' ', "T", 1);
        let (when, zone) =
            moment::parse(&written).ok_or_else(|| Why::Time(shown(&text)).at(place))?;
        left.zone(zone);
        Ok(Some(when))
    }

    /// A stop in whole minutes.
    fn stop(&self) -> Result<SignedDuration, Fault> {
        let (text, place) = self.cell(Column::Stop);
        if text.trim().is_empty() {
            return Ok(SignedDuration::ZERO);
        }
        let most = Waypoint::LONGEST_STOP.as_mins();
        let minutes = text.trim().parse().ok().filter(|minutes| (0..=most).contains(minutes));
        let minutes = minutes.ok_or_else(|| Why::Stop { text: shown(&text), most }.at(place))?;
        Ok(SignedDuration::from_mins(minutes))
    }

    /// By latitude and longitude where they are given, else by the reference: the middle of its square.
    fn position(&self, grid: Option<&Grid>) -> Result<Position, Fault> {
        let [(lat, _), (lon, _)] = [Column::Lat, Column::Lon].map(|column| self.cell(column));
        if !(lat.trim().is_empty() && lon.trim().is_empty()) {
            let lat = self.degrees(Column::Lat, "latitude", Latitude::from_degrees)?;
            let lon = self.degrees(Column::Lon, "longitude", Longitude::from_degrees)?;
            return Ok(Position::new(lat, lon));
        }
        let (text, place) = self.cell(Column::Reference);
        let Some(grid) = grid.filter(|_| !text.trim().is_empty()) else {
            return Err(Why::Missing { of: "the row", what: "position" }.at(place));
        };
        let wrong = |error: String| Why::Reference { text: shown(&text), error }.at(place);
        let found = grid.find(&text, None).map_err(|error| wrong(shown(&error.to_string())))?;
        let from = found.grid.inverse(found.square.centre());
        Ok(from.map_err(|error| wrong(shown(&error.to_string())))?.position)
    }

    fn degrees<T>(
        &self,
        column: Column,
        what: &'static str,
        angle: impl Fn(f64) -> Result<T, OutOfRange>,
    ) -> Result<T, Fault> {
        let (text, place) = self.cell(column);
        let number = text.trim().parse::<f64>();
        let number = number.map_err(|_| Why::Number { what, text: shown(&text) }.at(place))?;
        angle(number).map_err(|error| Why::from(error).at(place))
    }
}
