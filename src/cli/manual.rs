//! The manual page and the completions, both made from the definition of the arguments.

use std::io::Write;

use clap::CommandFactory;
use clap_complete::Shell;
use clap_mangen::Man;
use clap_mangen::roff::{Roff, bold, roman};

use crate::{Cli, Exit};

/// A section of the manual page: a heading over entries of a term and what it means.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Section {
    /// The heading, such as `Keys`.
    pub heading: String,
    /// Terms, such as keys, with their meanings.
    pub entries: Vec<(String, String)>,
}

/// Prints the completions for a shell.
pub(crate) fn completions(shell: Shell, output: &mut dyn Write) -> anyhow::Result<Exit> {
    // Into memory first: the generator panics where it cannot write.
    let mut script = Vec::new();
    clap_complete::generate(shell, &mut Cli::command(), "strandline", &mut script);
    output.write_all(&script)?;
    Ok(Exit::Done)
}

/// Prints the manual page: the program, its commands, the sections handed in and the exit codes.
pub(crate) fn page(sections: &[Section], output: &mut dyn Write) -> anyhow::Result<Exit> {
    let mut command = Cli::command();
    command.build();
    let man = Man::new(command.clone());
    man.render_title(output)?;
    man.render_name_section(output)?;
    man.render_synopsis_section(output)?;
    man.render_description_section(output)?;
    man.render_options_section(output)?;
    let mut roff = Roff::new();
    roff.control("SH", ["COMMANDS"]);
    described(&command, &mut roff);
    for section in sections {
        entries(&section.heading, &section.entries, &mut roff);
    }
    entries("Exit status", &exits(), &mut roff);
    output.write_all(roff.render().as_bytes())?;
    Ok(Exit::Done)
}

/// Every command below this one that does something itself: its usage, and what it takes.
fn described(command: &clap::Command, roff: &mut Roff) {
    for sub in command.get_subcommands().filter(|sub| sub.get_name() != "help") {
        if !sub.is_subcommand_required_set() {
            entry(sub, roff);
        }
        described(sub, roff);
    }
}

/// One command: its usage without its own commands, and what it takes.
fn entry(command: &clap::Command, roff: &mut Roff) {
    let usage = command.clone().render_usage().to_string();
    let usage = usage.lines().next().unwrap_or_default();
    roff.control("SS", [usage.trim_start_matches("Usage: ")]);
    roff.text([roman(command.get_about().map(ToString::to_string).unwrap_or_default())]);
    for arg in command.get_arguments().filter(|arg| arg.get_id() != "help") {
        roff.control("TP", []).text([bold(arg.to_string())]).text([roman(meaning(arg))]);
    }
}

/// What an argument means, with the values that it may take where they are few.
fn meaning(arg: &clap::Arg) -> String {
    let help = arg.get_help().map(ToString::to_string).unwrap_or_default();
    let values = arg.get_possible_values();
    if values.is_empty() || !arg.get_action().takes_values() {
        return help;
    }
    let names: Vec<&str> = values.iter().map(clap::builder::PossibleValue::get_name).collect();
    format!("{help}: {}", names.join(", "))
}

fn entries(heading: &str, entries: &[(String, String)], roff: &mut Roff) {
    roff.control("SH", [heading.to_uppercase().as_str()]);
    for (term, meaning) in entries {
        roff.control("TP", []).text([bold(term)]).text([roman(meaning)]);
    }
}

fn exits() -> Vec<(String, String)> {
    [
        ("0", "It is done."),
        ("1", "The answer is no, say of a check that found something."),
        ("2", "Bad input or usage."),
    ]
    .map(|(code, meaning)| (code.to_owned(), meaning.to_owned()))
    .to_vec()
}
