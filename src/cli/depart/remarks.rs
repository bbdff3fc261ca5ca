//! What must be said of the figures.

use nav::Length;
use plan::depart::{LandingPort, Starts};

use super::Report;

pub(super) fn of(report: &Report<'_>) -> Vec<String> {
    let mut said = vec![
        "Within the limits means the limits above, which the user sets, and no more than that. Best is \
         the quickest within them from launch to landing, the earliest of those as quick to half a \
         minute; slow is what the limits call so beside it."
            .to_owned(),
    ];
    said.extend(water(report));
    said.extend(wind(report));
    said.extend(report.days.first().map(tide));
    said.extend(report.told.iter().map(|told| format!("Tide and stream are told {told}.")));
    // Of an invented chart the first lines say so.
    let source = if report.origin.invented { String::new() } else { report.origin.said() };
    said.push(format!("Tide and stream are predicted, not measured. {source}"));
    said.push(
        "Left out: weather, waves, surge, a river in flood, and eddies close in; turns of the stream \
         may come early or late. The official tide tables and stream atlases come first."
            .to_owned(),
    );
    said
}

/// Whose tide is taken for the landing's.
fn tide(day: &Starts) -> String {
    match &day.port {
        None => {
            "The chart has no port, so that no height of tide is known at the landing.".to_owned()
        }
        Some(LandingPort { name, away, clear }) => {
            let away = nav::text::kilometres(*away);
            let land = if *clear { "" } else { ", with land between" };
            format!(
                "Heights of tide, above chart datum, are those at {name}, {away} from the landing{land}."
            )
        }
    }
}

/// How much of the way nothing is known of the stream.
fn water(report: &Report<'_>) -> Option<String> {
    let stretches = || report.course.legs().iter().flat_map(|leg| &leg.stretches);
    let dry = stretches().filter(|stretch| stretch.water.is_err());
    let dry: Length = dry.map(|stretch| stretch.length).sum();
    let of = report.course.distance();
    let [dry_km, of_km] = [dry, of].map(nav::text::kilometres);
    if dry <= Length::ZERO {
        None
    } else if stretches().all(|stretch| stretch.water.is_err()) {
        let pace = "times are those of the pace alone, and races and gates are not judged";
        Some(format!("Nothing is known of the stream on the way: {pace}."))
    } else {
        let still = "there the water is taken to be still";
        Some(format!("Nothing is known of the stream on {dry_km} of the {of_km}: {still}."))
    }
}

/// The wind that is in the figures, or is not.
fn wind(report: &Report<'_>) -> Option<String> {
    if let Some(too_much) = report.course.windy() {
        return Some(format!("The wind is not in these figures: {too_much}."));
    }
    let wind = report.route.wind?.wind;
    let (from, knots) = (wind.from, wind.speed.as_knots());
    Some(format!("A wind from {from} at {knots:.0} kn pushes the group all day, as it was set."))
}
