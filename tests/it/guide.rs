//! The README's tables are those of the program. `REWRITE=1 cargo test --test it guide` rewrites them.

use std::fmt::Write as _;
use std::fs;
use std::path::Path;

use clap::CommandFactory;

/// Holds what stands between two markers of the README against `wanted`.
fn hold(what: &str, wanted: &str) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md");
    let text = fs::read_to_string(&path).unwrap();
    let (head, rest) =
        text.split_once(&format!("<!-- {what}: generated, held by a test -->\n")).unwrap();
    let (found, tail) = rest.split_once(&format!("<!-- end of {what} -->")).unwrap();
    if std::env::var_os("REWRITE").is_some() {
        let begin = format!("<!-- {what}: generated, held by a test -->\n");
        let end = format!("<!-- end of {what} -->");
        fs::write(&path, format!("{head}{begin}{wanted}{end}{tail}")).unwrap();
        return;
    }
    assert_eq!(found, wanted, "the README's {what} are not the program's: see guide.rs");
}

/// A row for each command that does something, its name in full.
fn commands(command: &clap::Command, before: &str, table: &mut String) {
    for sub in command.get_subcommands().filter(|sub| sub.get_name() != "help") {
        let name = format!("{before} {}", sub.get_name());
        if !sub.is_subcommand_required_set() {
            let about = sub.get_about().map(ToString::to_string).unwrap_or_default();
            let about = about.replace('|', "\\|");
            writeln!(table, "| `{name}` | {about} |").unwrap();
        }
        commands(sub, &name, table);
    }
}

#[test]
fn the_tables_of_the_readme_are_the_programs() {
    let mut table = String::from("\n| command | what it does |\n| --- | --- |\n");
    commands(&cli::Cli::command(), "strandline", &mut table);
    hold("commands", &format!("{table}\n"));
    hold("keys", &format!("\n{}\n", tui::action::key_table_markdown()));
}

/// The picture in the README: a short day on the practice chart.
#[test]
fn the_picture_of_the_readme_is_what_the_program_draws() {
    let points = ["QB 722 507", "QB 713 500", "QB 715 490", "QB 729 478", "QB 720 468"];
    let drops: String = points.iter().map(|point| format!("/ '{point}' Enter Enter ")).collect();
    let shot = tui::Shot {
        size: (160, 48),
        keys: format!("{drops} / 'QB 730 480' Enter c +*3 / 'QB 712 469' Enter"),
        colours: tui::theme::Colours::True,
        ..tui::Shot::default()
    };
    let drawn = shot.svg().unwrap();
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("snapshots/readme.svg");
    if std::env::var_os("REWRITE").is_some() {
        fs::write(&path, &drawn).unwrap();
    }
    let kept = fs::read_to_string(&path).unwrap_or_default();
    assert!(kept == drawn, "snapshots/readme.svg is not what the program draws: see guide.rs");
}
