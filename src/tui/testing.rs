//! A small chart and a state on it, for tests.

use std::sync::Arc;

use chart::model::{
    Constituent, Ground, Land, Landing, Place, PlaceKind, Port, PortTide, Serves, Stream,
    StreamRates,
};
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

/// A port in the island's lee, and a stream of up to three knots along its west side, northgoing first.
fn with_tides(chart: Chart) -> Chart {
    let one = |name: &str, amplitude, phase_deg| Constituent {
        name: name.to_owned(),
        amplitude,
        phase_deg,
    };
    let tide = PortTide::Constants {
        mean_level_m: 2.5,
        constituents: vec![one("M2", 1.5, 180.0), one("S2", 0.5, 220.0)],
    };
    let port = Port {
        name: "Otter Quay".to_owned(),
        at: point(512_100.0, 5_510_000.0),
        source: String::new(),
        years: None,
        seasonal_m: Vec::new(),
        tide,
    };
    let stream = Stream {
        name: "West Otter".to_owned(),
        at: point(506_000.0, 5_510_000.0),
        rates: StreamRates::Axis {
            flood_deg: 0.0,
            constituents: vec![one("M2", 2.2, 90.0), one("S2", 0.8, 130.0)],
            across: Vec::new(),
        },
    };
    Chart { ports: vec![port], streams: vec![stream], ..chart }
}

/// A driver of a fresh state on [`chart`].
pub(crate) fn driver(width: u16, height: u16) -> Driver {
    driver_on(chart(), width, height)
}

/// A driver of a fresh state on the same chart with a port and a stream.
pub(crate) fn tidal_island(width: u16, height: u16) -> Driver {
    driver_on(with_tides(chart()), width, height)
}

/// A driver of a fresh state on a chart.
pub(crate) fn driver_on(chart: Chart, width: u16, height: u16) -> Driver {
    let chart = Arc::new(chart);
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
