//! The profiles that are kept, listed.

use std::io::Write;

use anyhow::Context;
use files::Folders;
use nav::text::{duration, nautical_miles};
use plan::profile::{Profile, Trip};
use plan::table::fitted;
use serde_json::json;

use super::{json, words};
use crate::page::{COLUMNS, paragraph};
use crate::{Exit, Io};

const METHOD: &str = "The pace to plan with is the mean through the water over the trips whose stream was \
                      known, each weighed by its hours; over the ground where no trip has one. Stops are \
                      not in it, and the wind's push is: plan stops at their points. Give the profile's \
                      name where a pace is asked for.";

/// Prints them.
pub(super) fn list(
    folders: Option<&Folders>,
    as_json: bool,
    io: &mut Io<'_>,
) -> anyhow::Result<Exit> {
    let folders = folders.context("this user has no home folder, and so no profiles")?;
    let profiles = files::open_profiles(folders)?;
    if as_json {
        let all: Vec<_> = profiles.iter().map(json::profile).collect();
        let value = json!({ "profiles": all, "method": METHOD });
        serde_json::to_writer_pretty(&mut *io.output, &value)?;
        writeln!(io.output)?;
        return Ok(Exit::Done);
    }
    if profiles.is_empty() {
        writeln!(io.output, "No profiles yet: compare TRACK ROUTE --keep NAME keeps the first.")?;
        return Ok(Exit::Done);
    }
    for profile in &profiles {
        table(profile, io.output)?;
        writeln!(io.output)?;
    }
    paragraph("", METHOD, io.output)?;
    Ok(Exit::Done)
}

fn table(profile: &Profile, to: &mut dyn Write) -> std::io::Result<()> {
    let pace = profile.pace().map(|pace| words::own_pace(&pace));
    paragraph(
        "",
        &format!("{}: {}", profile.name(), pace.unwrap_or_else(|| "no trips.".to_owned())),
        to,
    )?;
    writeln!(to, " date         moving       way  ground  water  spread  wind       trip")?;
    for trip in profile.trips() {
        let Trip { date, moving, distance, over_ground, through_water, wind, title, .. } = trip;
        let wind = wind.map_or_else(String::new, |wind| {
            format!("{} {:.0} kn", wind.from, wind.speed.as_knots())
        });
        let row = format!(
            " {date}  {:>8}  {:>8}  {:>6}  {:>5}  {:>6}  {wind:<11}{title}",
            duration(*moving),
            nautical_miles(*distance),
            words::column(Some(*over_ground)),
            words::column(through_water.map(|water| water.speed)),
            words::column(through_water.map(|water| water.spread)),
        );
        writeln!(to, "{}", fitted(&row, COLUMNS).trim_end())?;
    }
    Ok(())
}
