//! Files that are wrong, and files that mean harm: each one clear error, at its place, in little memory.

use std::io::{self, Read};

use rstest::rstest;

use super::*;

fn fault(text: impl AsRef<[u8]>) -> String {
    read(text.as_ref()).unwrap_err().to_string()
}

#[rstest]
#[case("<wpt lat='91' lon='2'/>", "2:1: latitude 91 is not within -90 to 90 degrees")]
#[case("  <wpt lat='1' lon='-180.1'/>", "2:3: longitude -180.1 is not within -180 to 180 degrees")]
#[case("<wpt lat='NaN' lon='2'/>", "2:1: latitude NaN is not within -90 to 90 degrees")]
#[case("<wpt lat='inf' lon='2'/>", "2:1: latitude inf is not within -90 to 90 degrees")]
#[case("<wpt lon='2'/>", "2:1: a wpt has no lat; each has lat and lon")]
#[case("<rte>\n<rtept lat='2'/>", "3:1: an rtept has no lon; each has lat and lon")]
#[case(
    "<wpt lat='57,155' lon='2'/>",
    "2:1: the latitude “57,155” is not a number; write degrees with a point, such as 52.2412"
)]
#[case(
    "<trk><trkseg><trkpt lat='1' lon='2'>\n<time>\n yesterday</time>",
    "4:2: “yesterday” is not a time; write, say, 2026-06-14T09:30:00Z"
)]
#[case("<wpt lat='1' lat='2' lon='2'/>", "2:1: not XML: an attribute that is there twice")]
#[case("<wpt lat=1 lon='2'/>", "2:1: not XML: an attribute whose value is not in quotes")]
#[case("</wpt>", "2:1: not XML: </wpt> where </gpx> should stand")]
#[case(
    "<wpt lat='1' lon='2'><name>Sam & Co</name>",
    "2:32: not XML: an & without its name and semicolon; a plain one is written &amp;"
)]
#[case(
    "<wpt lat='1' lon='2'><name>&nbsp;</name>",
    "2:28: the entity &nbsp; is not defined; XML itself has &amp; &lt; &gt; &quot; &apos; and numbers"
)]
#[case(
    "<wpt lat='&one;' lon='2'/>",
    "2:1: the entity &one; is not defined; XML itself has &amp; &lt; &gt; &quot; &apos; and numbers"
)]
#[case(
    "<wpt lat='1' lon='2'><name>x</name></wpt></gpx><gpx>",
    "2:48: something follows the end of the file's contents; nothing may"
)]
#[case("</gpx>more", "2:7: something follows the end of the file's contents; nothing may")]
fn what_is_wrong_is_said_where_it_is(#[case] within: &str, #[case] said: &str) {
    assert_eq!(fault(file(within)), said);
}

#[rstest]
#[case("", "1:1: the file ends in the middle; it was cut off, or not written to its end")]
#[case("  \n", "2:1: the file ends in the middle; it was cut off, or not written to its end")]
#[case(
    "<gpx>\n<wpt lat='1' lon='2'>",
    "2:22: the file ends in the middle; it was cut off, or not written to its end"
)]
#[case(
    "<gpx>\n<wpt lat='1' lo",
    "2:1: the file ends in the middle; it was cut off, or not written to its end"
)]
#[case("<gpx><!-- ", "1:6: the file ends in the middle; it was cut off, or not written to its end")]
#[case("hello", "1:1: not XML: text before the first <")]
#[case("<kml/>", "1:1: this is <kml>; a GPX file is a <gpx> of version 1.1 or 1.0")]
#[case("<gpx xmlns='urn:x'/>", "1:1: this is <gpx>; a GPX file is a <gpx> of version 1.1 or 1.0")]
#[case(
    "<?xml version='1.0' encoding='ISO-8859-1'?><gpx/>",
    "1:1: the file is in ISO-8859-1; save it as UTF-8"
)]
fn files_that_are_none_are_told(#[case] text: &str, #[case] said: &str) {
    assert_eq!(fault(text), said);
}

#[test]
fn other_encodings_are_told() {
    let utf16: Vec<u8> = "\u{feff}<gpx/>".encode_utf16().flat_map(u16::to_le_bytes).collect();
    assert_eq!(fault(&utf16), "1:1: the file is in UTF-16; save it as UTF-8");
    let utf16: Vec<u8> = "\u{feff}<gpx/>".encode_utf16().flat_map(u16::to_be_bytes).collect();
    assert_eq!(fault(&utf16), "1:1: the file is in UTF-16; save it as UTF-8");
    // é in Latin-1, and characters before it that count as one each.
    assert_eq!(
        fault(b"<gpx>\n<wpt lat='1' lon='2'><name>\xC3\xA6\xE7\xA4\x81\xE9</name>"),
        "2:30: the byte 0xE9 is not part of UTF-8 text; save the file as UTF-8"
    );
    assert_eq!(
        fault(b"<gpx>\xE7\xA4"),
        "1:6: the byte 0xE7 is not part of UTF-8 text; save the file as UTF-8"
    );
}

#[test]
fn an_entity_bomb_is_refused_before_it_is_read() {
    let bomb = "<?xml version='1.0'?>\n<!DOCTYPE gpx [<!ENTITY a 'aaaaaaaaaa'><!ENTITY b '&a;&a;&a;'>]>\n<gpx>&b;</gpx>";
    assert_eq!(
        fault(bomb),
        "2:1: a DOCTYPE, which GPX has no use for and which can make a file swell; take it out"
    );
}

/// So many bytes without an end, made as they are read, and how many were.
struct Endless<'a> {
    begins: &'a [u8],
    again: &'a [u8],
    left: usize,
    read: &'a mut usize,
}

impl Read for Endless<'_> {
    fn read(&mut self, into: &mut [u8]) -> io::Result<usize> {
        let count = self.begins.read(into)?;
        if count > 0 {
            return Ok(count);
        }
        let count = into.len().min(self.left) / self.again.len() * self.again.len();
        for (to, from) in into[..count].iter_mut().zip(self.again.iter().cycle()) {
            *to = *from;
        }
        self.left -= count;
        *self.read += count;
        Ok(count)
    }
}

/// What is said of two hundred megabytes of `again` after `begins`, and how many bytes were read until then.
fn endless(begins: &str, again: &str) -> (String, usize) {
    let mut read_bytes = 0;
    let from = Endless {
        begins: begins.as_bytes(),
        again: again.as_bytes(),
        left: 200 << 20,
        read: &mut read_bytes,
    };
    let said = read(from).unwrap_err().to_string();
    (said, read_bytes)
}

#[rstest]
#[case("<gpx><wpt lat='1' lon='2'><name>", "x", "1:33: a text or tag of more than 1048576 bytes")]
#[case(
    "<gpx><wpt lat='1' lon='2'><name>",
    "x&amp;",
    "1:33: a text or tag of more than 1048576 bytes"
)]
#[case(
    "<gpx><wpt lat='1' lon='2'><name><![CDATA[",
    "x",
    "1:33: a text or tag of more than 1048576 bytes"
)]
#[case("<gpx><wpt lat='1", "1", "1:6: a text or tag of more than 1048576 bytes")]
#[case("<gpx><wpt ", "a='1' ", "1:6: a text or tag of more than 1048576 bytes")]
#[case("<gpx><!-- ", "x", "1:6: a text or tag of more than 1048576 bytes")]
#[case("<gpx><", "x", "1:6: a text or tag of more than 1048576 bytes")]
#[case("", " ", "1:1: a text or tag of more than 1048576 bytes")]
#[case("<gpx>", "<a>", "1:195: nested more than 64 deep; a file of points is not")]
#[case("<!DOCTYPE gpx [", "<!ENTITY a 'b'>", "1:1: a text or tag of more than 1048576 bytes")]
fn what_has_no_end_ends_in_an_error_soon(
    #[case] begins: &str,
    #[case] again: &str,
    #[case] said: &str,
) {
    let (error, read) = endless(begins, again);
    assert!(error.starts_with(said), "{error}");
    // All that was ever held is the bound; a reference is longer than what it stands for.
    assert!(read < 4 << 20, "{read} bytes");
}

#[test]
fn points_are_counted() {
    let mut bytes = 0;
    let from = Endless {
        begins: b"<gpx><rte>",
        again: b"<rtept lat='1' lon='2'/>",
        left: 200 << 20,
        read: &mut bytes,
    };
    let said = read(from).unwrap_err().to_string();
    assert!(said.ends_with("more than 1000000 points; split the file"), "{said}");
}

#[test]
fn a_file_is_read_alike_in_pieces_of_any_size() {
    struct Pieces<'a>(&'a [u8], usize);
    impl Read for Pieces<'_> {
        fn read(&mut self, into: &mut [u8]) -> io::Result<usize> {
            let size = self.1.min(into.len());
            self.0.read(&mut into[..size])
        }
    }
    let text = file(
        "<wpt lat='1' lon='2'><name>礁の浜 &amp; 😀</name></wpt><trk><trkseg><trkpt lat='1' lon='2'/></trkseg></trk>",
    );
    let whole = good(&text);
    for size in [1, 2, 3, 7, 64] {
        assert_eq!(read(Pieces(text.as_bytes(), size)).unwrap(), whole);
    }
}
