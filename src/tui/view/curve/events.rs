//! The route's own times on the curve: when it leaves, and when it comes to each waypoint.

use jiff::Timestamp;

use super::Scale;
use super::page::Page;
use crate::glyphs::waypoint_number;
use crate::state::{PortDay, State};

/// Something of the route that has its time.
struct Event {
    at: Timestamp,
    /// The number of the waypoint, from one.
    number: usize,
}

/// The departure and the arrivals, in order: by the passage through the stream, or in still water
/// where that is not known. None without a departure.
fn events(state: &State) -> Vec<Event> {
    let route = state.document.route();
    let Some(departure) = &route.departure else { return Vec::new() };
    if route.points.is_empty() {
        return Vec::new();
    }
    let first = Event { at: departure.moment().timestamp(), number: 1 };
    if let Some(sailed) = state.sailed() {
        let legs = sailed.passage.legs.iter().enumerate();
        let arrivals = legs.map(|(leg, made)| Event { at: made.arrives, number: leg + 2 });
        return std::iter::once(first).chain(arrivals).collect();
    }
    let reckoning = plan::reckon(route, &state.chart.grid);
    let points = reckoning.points.iter().enumerate().skip(1);
    let arrivals = points.filter_map(|(index, point)| {
        Some(Event { at: point.arrives.as_ref()?.timestamp(), number: index + 1 })
    });
    std::iter::once(first).chain(arrivals).collect()
}

/// Puts each at the top of the plot, with a dotted line down to the curve. Of two in one column the
/// earlier stays.
pub(super) fn draw(state: &State, port: &PortDay, scale: &Scale, page: &mut Page<'_>) {
    let mut free = 0;
    for event in events(state) {
        let Some(column) = scale.column(event.at).filter(|column| *column >= free) else {
            continue;
        };
        let words = match waypoint_number(event.number, page.dots) {
            Some(number) => number.to_string(),
            None => event.number.to_string(),
        };
        free = column + crate::view::ink::width(&words);
        let (x, y) = (page.plot.x + column, page.plot.y - 1);
        page.write(x, y, &words, page.inks.figure);
        let Some(height) = port.height(event.at) else { continue };
        for row in 0..scale.row(height.as_metres()) {
            if page.is_free(column, row, 1) {
                page.put(column, row, "·", page.inks.plain);
            }
        }
    }
}
