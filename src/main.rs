//! Strandline: arguments to the command line or the screen, and exit codes.

mod screen;

use std::io::{self, BufReader, BufWriter, IsTerminal};
use std::process::ExitCode;

use clap::Parser;
use cli::{Cli, Command, Exit, Io};

fn main() -> ExitCode {
    let cli = Cli::parse();
    match cli.command {
        None => end(screen::open(cli.open, cli.look)),
        Some(Command::Screen(args)) => end(screen::draw(&args)),
        Some(command) => print(command).into(),
    }
}

/// The exit code of what the screen came to, any error said.
fn end(result: anyhow::Result<()>) -> ExitCode {
    match result {
        Ok(()) => Exit::Done.into(),
        Err(error) => cli::report(&error, &mut io::stderr()).into(),
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
            to_terminal: io::stdout().is_terminal(),
            manual: &screen::manual(),
        },
    )
}
