//! A small chart and a state on it, for tests.

use std::sync::Arc;

use chart::model::{Ground, Land, Landing, Place, PlaceKind, Serves};
use chart::{Chart, Extent, Point, Ring};
use nav::Grid;
use plan::{Departure, Document, Route};
use ratatui::layout::Size;

use crate::State;
use crate::action::Keymap;
use crate::driver::Driver;

fn point(x: f64, y: f64) -> Point {
    Point { x, y }
}

/// A square island in the middle of 20 by 20 km, with two names and a landing.
pub(crate) fn chart() -> Chart {
    let shore = [
        (508_000.0, 5_508_000.0),
        (512_000.0, 5_508_000.0),
        (512_000.0, 5_512_000.0),
        (508_000.0, 5_512_000.0),
    ];
    let shore = Ring(shore.map(|(x, y)| point(x, y)).to_vec());
    Chart {
        title: "Test Water".to_owned(),
        invented: true,
        source: String::new(),
        grid: Grid::parse("UTM:30N").unwrap(),
        extent: Extent::new(point(500_000.0, 5_500_000.0), point(520_000.0, 5_520_000.0)),
        land: vec![Land { name: "Block Island".to_owned(), shore, lakes: Vec::new() }],
        shorelines: Vec::new(),
        drying: Vec::new(),
        depths: Vec::new(),
        landings: vec![Landing {
            name: "Otter Slip".to_owned(),
            at: point(508_000.0, 5_509_000.0),
            ground: Ground::Slip,
            serves: Serves::AnyTide,
            note: String::new(),
        }],
        hazards: Vec::new(),
        races: Vec::new(),
        gates: Vec::new(),
        places: vec![
            Place {
                name: "Otter Sound".to_owned(),
                at: point(505_000.0, 5_505_000.0),
                kind: PlaceKind::Water,
            },
            Place {
                name: "North Otter".to_owned(),
                at: point(505_000.0, 5_515_000.0),
                kind: PlaceKind::Skerry,
            },
        ],
        marks: Vec::new(),
        ports: Vec::new(),
        streams: Vec::new(),
    }
}

/// A driver of a fresh state on [`chart`].
pub(crate) fn driver(width: u16, height: u16) -> Driver {
    let chart = Arc::new(chart());
    let departure: Departure = "2026-06-14T09:00[UTC]".parse().unwrap();
    let route = Route { departure: Some(departure.clone()), ..Route::new(&chart.title) };
    let document = Document::new(route).unwrap();
    let keymap = Keymap::standard().unwrap();
    Driver::new(State::new(Size { width, height }, chart, document, keymap, departure.moment()))
}

/// A driver of a fresh state on the practice chart, which has tides.
pub(crate) fn tidal(width: u16, height: u16) -> Driver {
    crate::Shot { size: (width, height), ..crate::Shot::default() }.driver().unwrap()
}
