//! The arguments, and the ends of commands.

use clap::{CommandFactory, Parser};

use super::*;

#[test]
fn the_definition_holds_together() {
    Cli::command().debug_assert();
}

#[test]
fn chart_and_route_open_the_screen() {
    let cli = Cli::try_parse_from(["strandline", "a.ron", "b.ron", "--dots", "ascii"]).unwrap();
    assert!(cli.command.is_none());
    assert_eq!(cli.open.chart.unwrap().to_str(), Some("a.ron"));
    assert_eq!(cli.open.route.unwrap().to_str(), Some("b.ron"));
    assert_eq!(cli.look.dots, Some(Dots::Ascii));
}
