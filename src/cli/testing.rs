//! What tests of commands share: a command run, bytes in and bytes out.

use clap::Parser;

use crate::{Cli, Exit, Io};

/// What a command said.
pub(crate) struct Said {
    pub(crate) exit: Exit,
    pub(crate) output: String,
    /// The output as it is, text or not.
    pub(crate) bytes: Vec<u8>,
    pub(crate) errors: String,
}

/// Runs `strandline` with `arguments`, and `input` on its standard input.
pub(crate) fn run<'a>(arguments: impl IntoIterator<Item = &'a str>, input: &str) -> Said {
    let all = ["strandline"].into_iter().chain(arguments);
    let command = Cli::try_parse_from(all).unwrap().command.unwrap();
    let (mut input, mut output, mut errors) = (input.as_bytes(), Vec::new(), Vec::new());
    let exit = crate::run(
        command,
        &mut Io {
            input: &mut input,
            output: &mut output,
            errors: &mut errors,
            terminal: false,
            to_terminal: false,
            manual: &[],
        },
    );
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    Said { exit, output: text(&output), errors: text(&errors), bytes: output }
}

/// Holds that a page is at most eighty columns wide and ends with the caution; gives its words as one line.
pub(crate) fn kept(page: &str) -> String {
    for line in page.lines() {
        assert!(line.chars().count() <= 80, "{line}");
        assert_eq!(line.trim_end(), line);
    }
    let flowing = page.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(flowing.ends_with(nav::text::CAUTION), "{page}");
    flowing
}
