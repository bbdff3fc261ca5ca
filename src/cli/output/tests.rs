//! Where what is made goes.

use super::*;

fn output(name: &str) -> Output {
    Output { output: PathBuf::from(name), format: None, force: false }
}

/// The format that is found for a name, standard output being a terminal or not.
fn format(name: &str, to_terminal: bool) -> Result<Format, String> {
    let io = Io {
        input: &mut &b""[..],
        output: &mut Vec::new(),
        errors: &mut Vec::new(),
        terminal: false,
        to_terminal,
        manual: &[],
    };
    let of = [Format::Pdf, Format::Text, Format::GeoJson];
    output(name).format(&of, &io).map_err(|error| error.to_string())
}

#[test]
fn the_ending_names_the_format() {
    for (name, expected) in [
        ("a.pdf", Format::Pdf),
        ("a.b.PDF", Format::Pdf),
        ("a.txt", Format::Text),
        ("a.json", Format::GeoJson),
        ("-", Format::Pdf),
    ] {
        assert_eq!(format(name, false), Ok(expected), "{name}");
    }
    for name in ["a", "a.svg", ".pdf", "a.", "/dev/null"] {
        let said = format(name, false).unwrap_err();
        let expected =
            format!("{name}: the name ends in none of .pdf, .txt, .geojson; or say --format");
        assert_eq!(said, expected);
    }
}

#[test]
fn what_is_no_text_does_not_go_to_a_terminal() {
    assert_eq!(
        format("-", true).unwrap_err(),
        "a PDF is no text for a terminal; write it to a file, -o NAME.pdf, or on to another program"
    );
    assert_eq!(format("a.pdf", true), Ok(Format::Pdf));
}

#[test]
fn pages_are_numbered_before_the_ending() {
    assert_eq!(output("cards/day.1.svg").numbered(2), Path::new("cards/day.1-2.svg"));
    assert_eq!(output("card").numbered(10), Path::new("card-10"));
}

/// Standard output on a full disk, or without a reader.
struct Refuses(std::io::ErrorKind);

impl std::io::Write for Refuses {
    fn write(&mut self, _: &[u8]) -> std::io::Result<usize> {
        Err(self.0.into())
    }

    fn flush(&mut self) -> std::io::Result<()> {
        Ok(())
    }
}

#[test]
fn a_full_disk_is_an_error_and_a_reader_that_has_gone_is_none() {
    for (kind, exit, said) in [
        (
            std::io::ErrorKind::StorageFull,
            Exit::Bad,
            "standard output cannot be written: no storage space\n",
        ),
        (std::io::ErrorKind::BrokenPipe, Exit::Done, ""),
    ] {
        let mut errors = Vec::new();
        let mut io = Io {
            input: &mut &b""[..],
            output: &mut Refuses(kind),
            errors: &mut errors,
            terminal: false,
            to_terminal: false,
            manual: &[],
        };
        let error = output("-").write(b"words", &mut io).unwrap_err();
        assert_eq!(crate::report(&error, io.errors), exit);
        assert_eq!(String::from_utf8(errors).unwrap(), said);
    }
}
