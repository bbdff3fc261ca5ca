//! Which of several things in a file is taken.

use ::chart::Chart;
use anyhow::bail;
use clap::Args;
use nav::Length;
use paper::exchange::{Foreign, TakeError, Taken, along_track, through};
use plan::Route;

/// Which one, by its number in the file.
#[derive(Debug, Clone, Args)]
#[group(multiple = false)]
pub(crate) struct ChoiceArgs {
    /// The route of this number in the file
    #[arg(long, value_name = "N")]
    route: Option<usize>,
    /// The track of this number in the file
    #[arg(long, value_name = "N")]
    track: Option<usize>,
    /// The points that stand on their own, in their order
    #[arg(long)]
    waypoints: bool,
}

/// What is taken, by its place in the file, from zero.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Choice {
    Route(usize),
    Track(usize),
    Waypoints,
}

impl ChoiceArgs {
    /// What is asked for, or the only thing that there is; points on their own are no choice where there is a route
    /// or a track.
    pub(super) fn of(&self, file: &Foreign) -> anyhow::Result<Choice> {
        let (routes, tracks) = (file.routes.len(), file.tracks.len());
        let numbered = |what: &str, number: usize, count: usize| match number.checked_sub(1) {
            Some(index) if index < count => Ok(index),
            _ => bail!("there is no {what} {number}{}", listed(file)),
        };
        match (self.route, self.track, self.waypoints) {
            (Some(number), _, _) => Ok(Choice::Route(numbered("route", number, routes)?)),
            (_, Some(number), _) => Ok(Choice::Track(numbered("track", number, tracks)?)),
            (_, _, true) => Ok(Choice::Waypoints),
            _ => match (routes, tracks) {
                (1, 0) => Ok(Choice::Route(0)),
                (0, 1) => Ok(Choice::Track(0)),
                (0, 0) if !file.waypoints.is_empty() => Ok(Choice::Waypoints),
                (0, 0) => bail!("there is no route, track or point in it"),
                _ => bail!("there is more than one{}", listed(file)),
            },
        }
    }
}

/// What is in a file, a line each, as it is asked for.
fn listed(file: &Foreign) -> String {
    let name = |name: &str| if name.is_empty() { String::new() } else { format!("{name}, ") };
    let routes = (1..).zip(&file.routes).map(|(number, route)| {
        let points = counted(route.points.len(), "point", "s");
        format!("\n--route {number}: {}{points}", name(&route.name))
    });
    let tracks = (1..).zip(&file.tracks).map(|(number, track)| {
        let fixes = counted(track.fixes().len(), "fix", "es");
        format!("\n--track {number}: {}{fixes}", name(track.name()))
    });
    let points = file.waypoints.len();
    let points = (points > 0).then(|| format!("\n--waypoints: {}", counted(points, "point", "s")));
    routes.chain(tracks).chain(points).collect()
}

/// `1 point`, `2 points`.
fn counted(count: usize, what: &str, many: &str) -> String {
    format!("{count} {what}{}", if count == 1 { "" } else { many })
}

impl Choice {
    /// The route that this program wrote, if it is one.
    pub(super) fn own_route(self, file: &Foreign) -> Option<&Route> {
        match self {
            Choice::Route(index) => file.routes.get(index)?.own.as_deref(),
            _ => None,
        }
    }

    /// The route that it makes on a chart.
    pub(super) fn taken(
        self,
        file: &Foreign,
        within: Length,
        chart: &Chart,
    ) -> Result<Taken, TakeError> {
        let route = |index| file.routes.get(index).ok_or(TakeError::Empty);
        let track = |index| file.tracks.get(index).ok_or(TakeError::Empty);
        match self {
            Choice::Route(index) => route(index)?.taken(&chart.title),
            Choice::Track(index) => along_track(track(index)?, within, &chart.title),
            Choice::Waypoints => through(&file.waypoints, &file.title, &chart.title),
        }
    }

    /// What else is in the file, in a sentence.
    pub(super) fn beside(self, file: &Foreign) -> Option<String> {
        let (routes, tracks, points) = match self {
            Choice::Route(_) => (1, 0, 0),
            Choice::Track(_) => (0, 1, 0),
            Choice::Waypoints => (0, 0, file.waypoints.len()),
        };
        let rest = [
            (file.routes.len() - routes, "route"),
            (file.tracks.len() - tracks, "track"),
            (file.waypoints.len() - points, "point"),
        ];
        let rest = rest.iter().filter(|(count, _)| *count > 0);
        let rest: Vec<String> = rest.map(|&(count, what)| counted(count, what, "s")).collect();
        (!rest.is_empty()).then(|| format!("left out beside it: {}", rest.join(", ")))
    }
}
