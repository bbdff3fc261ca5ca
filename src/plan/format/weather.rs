//! The wind of a day, in a route file.

use nav::leeway::{Leeway, Wind};
use nav::{Bearing, Speed, True};
use serde::Deserialize;
use serde::de::{Deserializer, Error as _};

use super::read::by;
use crate::Weather;

#[derive(Deserialize)]
#[serde(rename = "Wind", deny_unknown_fields)]
struct WeatherFile {
    #[serde(deserialize_with = "bearing")]
    from_deg: Bearing<True>,
    #[serde(deserialize_with = "speed")]
    kn: Speed,
    #[serde(default, deserialize_with = "leeway")]
    leeway: Leeway,
}

pub(super) fn read<'de, D: Deserializer<'de>>(d: D) -> Result<Option<Weather>, D::Error> {
    let WeatherFile { from_deg, kn, leeway } = WeatherFile::deserialize(d)?;
    let weather = Weather { wind: Wind { from: from_deg, speed: kn }, leeway };
    weather.checked().map(Some).map_err(D::Error::custom)
}

/// The value of the field.
pub(super) fn written(weather: &Weather) -> String {
    let Weather { wind, leeway } = weather;
    let (from, knots) = (wind.from.as_degrees(), wind.speed.as_knots());
    let leeway = match leeway.factor() {
        1.0 => String::new(),
        factor => format!(", leeway: {factor:?}"),
    };
    // The speed was rounded to hundredths; so is what the conversion of units has left of it.
    format!("(from_deg: {from:?}, kn: {:?}{leeway})", (knots * 100.0).round() / 100.0)
}

fn bearing<'de, D: Deserializer<'de>>(d: D) -> Result<Bearing<True>, D::Error> {
    by(d, Bearing::from_degrees)
}

fn speed<'de, D: Deserializer<'de>>(d: D) -> Result<Speed, D::Error> {
    by(d, Speed::from_knots)
}

fn leeway<'de, D: Deserializer<'de>>(d: D) -> Result<Leeway, D::Error> {
    by(d, Leeway::from_factor)
}
