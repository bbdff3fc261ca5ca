//! What was measured, as JSON: full precision, names with their unit, `null` for what there is not.

use std::io::Write;

use ::chart::measure::{Divided, Measured, Shore, Walk};
use ::chart::trace::Way;
use nav::text;
use serde_json::{Value, json};

use super::ends::End;
use super::{Piece, Report};

pub(super) fn write(report: &Report<'_>, to: &mut dyn Write) -> anyhow::Result<()> {
    let chart = &report.opened.chart;
    let total = &report.total;
    let document = json!({
        "title": chart.title,
        "invented": chart.invented,
        "grid": chart.grid.name(),
        "piece": report.piece.as_ref().map(piece),
        "shores": report.shores.iter().map(shore).collect::<Vec<_>>(),
        "total": {
            "shores_round_land": total.islands,
            "open_shores": total.open,
            "lakes": total.lakes,
            "vertices": total.vertices,
            "length_m": total.length.as_metres(),
            "grid_length_m": total.on_grid.as_metres(),
            "land_area_m2": total.land.as_square_metres(),
        },
        "remarks": report.remarks,
        "caution": text::CAUTION,
    });
    serde_json::to_writer_pretty(&mut *to, &document)?;
    writeln!(to)?;
    Ok(())
}

fn piece(piece: &Piece) -> Value {
    let [from, to] = piece.ends.each_ref().map(end);
    json!({
        "from": from,
        "to": to,
        "other_way": piece.way == Way::Longer,
        "stand_off_m": piece.wishes.stand_off,
        "smooth_m": piece.wishes.step,
    })
}

fn end(end: &End) -> Value {
    json!({
        "text": end.text,
        "reference": end.reference,
        "lat": end.position.lat.as_degrees(),
        "lon": end.position.lon.as_degrees(),
        "caught_m": end.caught.as_metres(),
    })
}

fn shore(shore: &Shore) -> Value {
    let Measured {
        vertices, closed, length, on_grid, straight, indentation, divided, slope, ..
    } = &shore.measured;
    json!({
        "name": shore.name,
        "vertices": vertices,
        "closed": closed,
        "length_m": length.as_metres(),
        "grid_length_m": on_grid.as_metres(),
        "grid_longer_m": shore.measured.grid_longer().as_metres(),
        "straight_m": straight.map(|straight| straight.as_metres()),
        "indentation": indentation,
        "lakes": shore.lakes,
        "land_area_m2": closed.then(|| shore.land.as_square_metres()),
        "dividers": divided.iter().map(both).collect::<Vec<_>>(),
        "slope": slope.map(|slope| json!({
            "slope": slope.slope,
            "narrowest_m": slope.narrowest.as_metres(),
            "widest_m": slope.widest.as_metres(),
        })),
    })
}

fn both(Divided { onwards, back }: &Divided) -> Value {
    let walk = |walk: &Walk| {
        json!({
            "steps": walk.steps,
            "remainder_m": walk.remainder.as_metres(),
            "length_m": walk.length().as_metres(),
        })
    };
    json!({ "step_m": onwards.step.as_metres(), "onwards": walk(onwards), "back": walk(back) })
}
