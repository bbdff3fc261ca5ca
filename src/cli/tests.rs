//! The arguments, the manual and the ends of commands.

use clap::{CommandFactory, Parser, ValueEnum};
use rstest::rstest;

use super::*;

/// What a command prints.
fn printed(command: Command) -> String {
    let (mut output, mut errors) = (Vec::new(), Vec::new());
    let section = Section {
        heading: "Keys".to_owned(),
        entries: vec![("Ctrl-P".to_owned(), "all that can be done; \\ and .dots stay".to_owned())],
    };
    let io = &mut Io {
        input: &mut &b""[..],
        output: &mut output,
        errors: &mut errors,
        terminal: false,
        to_terminal: false,
        manual: &[section],
    };
    assert_eq!(run(command, io), Exit::Done);
    assert!(errors.is_empty());
    String::from_utf8(output).unwrap()
}

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
    let cli = Cli::try_parse_from(["strandline"]).unwrap();
    assert!(cli.command.is_none() && cli.open == Open::default());
}

#[test]
fn the_screen_is_drawn_from_keys() {
    let line =
        ["strandline", "screen", "a.ron", "--size", "200x60", "--keys", "- Enter", "-o", "b.svg"];
    let Some(Command::Screen(args)) = Cli::try_parse_from(line).unwrap().command else {
        panic!("no screen")
    };
    assert_eq!((args.size.columns.get(), args.size.rows.get()), (200, 60));
    assert_eq!(args.keys, "- Enter");
    assert_eq!(args.output.to_str(), Some("b.svg"));
}

#[rstest]
#[case("200x60", Some((200, 60)))]
#[case("60×20", Some((60, 20)))]
#[case("1000x1", Some((1000, 1)))]
#[case("0x24", None)]
#[case("1001x24", None)]
#[case("80", None)]
#[case("80x24x1", None)]
#[case("-80x24", None)]
fn sizes(#[case] text: &str, #[case] size: Option<(u16, u16)>) {
    let read = text.parse::<Size>().ok();
    assert_eq!(read.map(|size| (size.columns.get(), size.rows.get())), size);
}

#[rstest]
#[case("chart make")]
#[case("chart import a.json")]
#[case("route show --json --csv")]
#[case("reckon")]
#[case("reckon to-grid")]
#[case("reckon nothing")]
#[case("--dots fine")]
#[case("a.ron b.ron c.ron")]
fn wrong_usage_is_refused(#[case] line: &str) {
    let error = Cli::try_parse_from(format!("strandline {line}").split(' ')).unwrap_err();
    assert_eq!(error.exit_code(), 2);
}

#[test]
fn completions_for_every_shell() {
    for &shell in clap_complete::Shell::value_variants() {
        let script = printed(Command::Completions { shell });
        assert!(script.contains("reckon") && script.contains("from-grid"), "{shell}");
    }
}

#[test]
fn the_manual_page_has_every_command_and_the_screens_sections() {
    let page = printed(Command::Manual);
    for line in [
        ".SH NAME",
        ".SS \"strandline chart import [OPTIONS] --output <FILE> <FILE>\"",
        ".SS \"strandline reckon from-grid [OPTIONS] --grid <GRID> [FILE]\"",
        ".SS \"strandline manual\"",
        ".SH KEYS",
        ".SH \"EXIT STATUS\"",
    ] {
        assert!(page.lines().any(|found| found == line), "{line}");
    }
    assert!(page.contains("\\fBCtrl\\-P\\fR\nall that can be done; \\\\ and .dots stay\n"));
}

#[test]
fn errors_are_said_harmlessly_in_one_line() {
    let mut errors = Vec::new();
    let error = anyhow::anyhow!("no file \u{1b}[2J").context("a\u{202e}b.ron");
    assert_eq!(report(&error, &mut errors), Exit::Bad);
    assert_eq!(String::from_utf8(errors).unwrap(), "a\u{fffd}b.ron: no file \u{fffd}[2J\n");
}

#[test]
fn a_reader_that_has_gone_is_no_error() {
    let gone = || io::Error::from(io::ErrorKind::BrokenPipe);
    let wrapped = [
        anyhow::Error::from(gone()),
        serde_json::Error::io(gone()).into(),
        csv::Error::from(gone()).into(),
    ];
    for error in wrapped {
        let mut errors = Vec::new();
        assert_eq!(report(&error.context("standard output"), &mut errors), Exit::Done);
        assert!(errors.is_empty());
    }
}

#[test]
fn exits_are_nought_one_and_two() {
    let code = |exit: Exit| format!("{:?}", ExitCode::from(exit));
    assert_eq!(code(Exit::Done), format!("{:?}", ExitCode::from(0)));
    assert_eq!(code(Exit::No), format!("{:?}", ExitCode::from(1)));
    assert_eq!(code(Exit::Bad), format!("{:?}", ExitCode::from(2)));
}
