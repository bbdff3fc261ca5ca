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

/// Prints the manual page: the program, each of its commands, and the sections handed in.
pub(crate) fn page(sections: &[Section], output: &mut dyn Write) -> anyhow::Result<Exit> {
    let mut command = Cli::command();
    command.build();
    Man::new(command.clone()).render(output)?;
    for sub in command.get_subcommands().filter(|sub| sub.get_name() != "help") {
        described(sub, output)?;
    }
    for section in sections {
        let mut roff = Roff::new();
        roff.control("SH", [section.heading.to_uppercase().as_str()]);
        for (term, meaning) in &section.entries {
            roff.control("TP", []).text([bold(term)]).text([roman(meaning)]);
        }
        output.write_all(roff.render().as_bytes())?;
    }
    Ok(Exit::Done)
}

/// A command's usage and options, and those of the commands in it.
fn described(command: &clap::Command, output: &mut dyn Write) -> std::io::Result<()> {
    let mut roff = Roff::new();
    let name = command.get_bin_name().unwrap_or_else(|| command.get_name());
    roff.control("SH", [name.to_uppercase().as_str()]);
    output.write_all(roff.render().as_bytes())?;
    let man = Man::new(command.clone());
    man.render_description_section(output)?;
    man.render_options_section(output)?;
    for sub in command.get_subcommands().filter(|sub| sub.get_name() != "help") {
        described(sub, output)?;
    }
    Ok(())
}
