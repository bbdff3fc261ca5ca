//! Files without an end in sight: memory stays bounded, progress is told, and stopping works.

use std::io::{self, Read};
use std::ops::ControlFlow;

use super::super::{BadRings, ImportError, MOST_VERTICES, Why, read};
use super::grid;

/// A gigabyte in one line: a beginning, then the same bytes over and over.
struct Line {
    beginning: &'static [u8],
    over_and_over: &'static [u8],
    served: usize,
}

const GIGABYTE: usize = 1 << 30;

impl Line {
    fn new(beginning: &'static str, over_and_over: &'static str) -> Line {
        let (beginning, over_and_over) = (beginning.as_bytes(), over_and_over.as_bytes());
        Line { beginning, over_and_over, served: 0 }
    }
}

impl Read for Line {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        if self.served >= GIGABYTE {
            return Ok(0);
        }
        for byte in buffer.iter_mut() {
            let repeated = self.served.wrapping_sub(self.beginning.len());
            *byte = match self.beginning.get(self.served) {
                Some(byte) => *byte,
                None => self.over_and_over[repeated % self.over_and_over.len()],
            };
            self.served += 1;
        }
        Ok(buffer.len())
    }
}

/// Reads a line and tells how much of it was read.
fn outcome(line: Line) -> (ImportError, u64) {
    let mut seen = 0;
    let result = read(line, &grid(), BadRings::Refuse, |bytes| {
        seen = bytes;
        ControlFlow::Continue(())
    });
    (result.unwrap_err(), seen)
}

#[test]
fn a_text_of_a_gigabyte_ends_after_a_mebibyte() {
    for beginning in ["{\"name\":\"", "{\"type\":\"Feature\",\"properties\":{\"other\":\"", "{\""] {
        let (error, seen) = outcome(Line::new(beginning, "a\\\""));
        assert!(matches!(error.why, Why::LongToken), "{beginning}: {error}");
        assert!(seen <= 2 << 20, "{seen}");
    }
}

#[test]
fn a_number_of_a_gigabyte_ends_after_a_mebibyte() {
    for beginning in
        ["{\"coordinates\":[[1", "{\"coordinates\":[[0.", "{\"other\":-1", "{\"other\":1e"]
    {
        let (error, seen) = outcome(Line::new(beginning, "0"));
        assert!(
            matches!(error.why, Why::LongToken) || error.to_string().contains("beyond all bounds"),
            "{beginning}: {error}"
        );
        assert!(seen <= 2 << 20, "{seen}");
    }
}

#[test]
fn a_line_of_a_gigabyte_ends_at_the_most_vertices() {
    let line = Line::new("{\"type\":\"LineString\",\"coordinates\":[", "[1,1],");
    let (error, seen) = outcome(line);
    assert!(matches!(error.why, Why::TooLarge(_)), "{error}");
    assert_eq!(
        error.to_string(),
        format!(
            "1:{}: more than 4000000 vertices; cut the shore to the region or simplify it first",
            error.column
        )
    );
    assert!(seen <= 6 * MOST_VERTICES as u64 + 100, "{seen}");
}

#[test]
fn a_reading_can_be_stopped() {
    let line = Line::new("{\"other\":[", "1,");
    let mut calls = 0;
    let result = read(line, &grid(), BadRings::Refuse, |bytes| {
        calls += 1;
        if bytes >= 1 << 20 { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
    });
    assert!(matches!(result.unwrap_err().why, Why::Cancelled));
    assert_eq!(calls, 4);
}

#[test]
fn an_error_of_the_file_is_passed_on() {
    struct Broken;
    impl Read for Broken {
        fn read(&mut self, _: &mut [u8]) -> io::Result<usize> {
            Err(io::Error::other("the disk is gone"))
        }
    }
    let result = read(Broken, &grid(), BadRings::Refuse, |_| ControlFlow::Continue(()));
    let message = result.unwrap_err().to_string();
    assert_eq!(message, "1:1: the file cannot be read on: the disk is gone");
}
