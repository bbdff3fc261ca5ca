//! Strandline: arguments to the command line or the screen, and exit codes.

use std::io::{self, BufReader, BufWriter, IsTerminal};
use std::process::ExitCode;

use clap::Parser;
use cli::{Cli, Command, Exit, Io};

fn main() -> ExitCode {
    let cli = Cli::parse();
    match cli.command {
        None | Some(Command::Screen(_)) => {
            cli::report(&anyhow::anyhow!("there is no screen yet"), &mut io::stderr()).into()
        }
        Some(command) => print(command).into(),
    }
}

/// Carries out a command that needs no screen.
fn print(command: Command) -> Exit {
    cli::run(
        command,
        &mut Io {
            input: &mut BufReader::with_capacity(1 << 16, io::stdin().lock()),
            output: &mut BufWriter::with_capacity(1 << 16, io::stdout().lock()),
            errors: &mut io::stderr(),
            terminal: io::stderr().is_terminal(),
            manual: &[],
        },
    )
}
