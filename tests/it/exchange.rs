//! Files of other tools, handed to the real program: good ones, wrong ones, and ones that mean harm.

use std::io::Write;
use std::process::{Command, Stdio};
use std::time::Instant;

/// What the program says and gives of `arguments`, fed by `feed` for as long as it reads.
fn fed(
    arguments: &[&str],
    feed: impl FnOnce(&mut dyn Write) + Send + 'static,
) -> (i32, String, String) {
    let state = tempfile::tempdir().unwrap();
    let mut child = Command::new(env!("CARGO_BIN_EXE_strandline"))
        .args(arguments)
        .env("XDG_STATE_HOME", state.path())
        .env("XDG_DATA_HOME", state.path())
        .env("XDG_CONFIG_HOME", state.path())
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut input = child.stdin.take().unwrap();
    let feeder = std::thread::spawn(move || feed(&mut input));
    let done = child.wait_with_output().unwrap();
    feeder.join().unwrap();
    let text = |bytes| String::from_utf8(bytes).unwrap();
    (done.status.code().unwrap(), text(done.stdout), text(done.stderr))
}

/// As [`fed`], by a text.
fn told(arguments: &[&str], text: &'static [u8]) -> (i32, String, String) {
    // The program may have stopped reading, which is its right.
    fed(arguments, move |to| drop(to.write_all(text)))
}

#[test]
fn files_that_mean_harm_are_refused_with_one_line() {
    for (text, said) in [
        (
            &b"<?xml version='1.0'?>\n<!DOCTYPE gpx [<!ENTITY a 'ha'><!ENTITY b '&a;&a;'>]>\n<gpx>&b;</gpx>"[..],
            "standard input:2:1: a DOCTYPE, which GPX has no use for and which can make a file swell; take it out\n",
        ),
        (
            b"<gpx>\n <wpt lat='57' lon='190'/></gpx>",
            "standard input:2:2: longitude 190 is not within -180 to 180 degrees\n",
        ),
        (
            b"<gpx>\n<wpt lat='57' lon='2'><name>\xE9</name></wpt></gpx>",
            "standard input:2:29: the byte 0xE9 is not part of UTF-8 text; save the file as UTF-8\n",
        ),
        (
            b"<gpx><trk><name>\x1b[31m</name>&\x1b[2J;</trk></gpx>",
            "standard input:1:29: the entity &\u{fffd}[2J; is not defined; XML itself has &amp; &lt; &gt; &quot; &apos; and numbers\n",
        ),
    ] {
        assert_eq!(told(&["import", "-"], text), (2, String::new(), said.to_owned()));
    }
}

#[test]
fn two_hundred_megabytes_of_one_name_are_refused_at_once() {
    let start = Instant::now();
    let (code, output, errors) = fed(&["import", "-"], |to| {
        let _ = to.write_all(b"<gpx><wpt lat='57' lon='2'><name>");
        let block = [b'x'; 1 << 16];
        // Until the program has closed its input.
        for _ in 0..(200 << 20) / block.len() {
            if to.write_all(&block).is_err() {
                return;
            }
        }
        panic!("all of it was read");
    });
    assert_eq!((code, output.as_str()), (2, ""));
    assert_eq!(
        errors,
        "standard input:1:34: a text or tag of more than 1048576 bytes; in a file of points none is so long\n"
    );
    assert!(start.elapsed().as_secs() < 120, "a hang, not a benchmark");
}
