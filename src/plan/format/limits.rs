//! The limits of a start, in a route file.

use serde::Deserialize;
use serde::de::Deserializer;

use super::read::by;
use crate::{Limit, Limits};

/// What is said of each limit, as it is written; what is not said is usual.
#[derive(Deserialize, Default)]
#[serde(rename = "Limits", deny_unknown_fields, default)]
pub(super) struct LimitsFile {
    #[serde(deserialize_with = "race")]
    race: Option<String>,
    #[serde(deserialize_with = "light")]
    light: Option<String>,
    #[serde(deserialize_with = "wait")]
    wait: Option<String>,
    #[serde(deserialize_with = "drift")]
    drift: Option<String>,
    #[serde(deserialize_with = "height")]
    height: Option<String>,
    #[serde(deserialize_with = "day")]
    day: Option<String>,
    #[serde(deserialize_with = "slow")]
    slow: Option<String>,
}

impl From<LimitsFile> for Limits {
    fn from(file: LimitsFile) -> Limits {
        let LimitsFile { race, light, wait, drift, height, day, slow } = file;
        let said = [race, light, wait, drift, height, day, slow];
        Limit::ALL.into_iter().zip(said).fold(Limits::default(), |limits, (limit, text)| {
            // Each was checked where it was read.
            text.and_then(|text| limits.with(limit, &text).ok()).unwrap_or(limits)
        })
    }
}

const fn name(limit: Limit) -> &'static str {
    match limit {
        Limit::Race => "race",
        Limit::Light => "light",
        Limit::Wait => "wait",
        Limit::Drift => "drift",
        Limit::Height => "height",
        Limit::Day => "day",
        Limit::Slow => "slow",
    }
}

/// Those that are not usual, as the value of a field.
pub(super) fn written(limits: &Limits) -> String {
    let usual = Limits::default();
    let changed = Limit::ALL.into_iter().filter_map(|limit| {
        let text = limits.written(limit);
        (text != usual.written(limit)).then(|| format!("{}: \"{text}\"", name(limit)))
    });
    format!("({})", changed.collect::<Vec<_>>().join(", "))
}

/// The text of a limit, checked where it stands.
fn checked<'de, D: Deserializer<'de>>(d: D, limit: Limit) -> Result<Option<String>, D::Error> {
    by(d, |text: String| Limits::default().with(limit, &text).map(|_| Some(text)))
}

fn race<'de, D: Deserializer<'de>>(d: D) -> Result<Option<String>, D::Error> {
    checked(d, Limit::Race)
}

fn light<'de, D: Deserializer<'de>>(d: D) -> Result<Option<String>, D::Error> {
    checked(d, Limit::Light)
}

fn wait<'de, D: Deserializer<'de>>(d: D) -> Result<Option<String>, D::Error> {
    checked(d, Limit::Wait)
}

fn drift<'de, D: Deserializer<'de>>(d: D) -> Result<Option<String>, D::Error> {
    checked(d, Limit::Drift)
}

fn height<'de, D: Deserializer<'de>>(d: D) -> Result<Option<String>, D::Error> {
    checked(d, Limit::Height)
}

fn day<'de, D: Deserializer<'de>>(d: D) -> Result<Option<String>, D::Error> {
    checked(d, Limit::Day)
}

fn slow<'de, D: Deserializer<'de>>(d: D) -> Result<Option<String>, D::Error> {
    checked(d, Limit::Slow)
}
