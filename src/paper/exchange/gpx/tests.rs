//! What receivers and other programs write, and what they should not have.

use super::*;

fn file(within: &str) -> String {
    format!("<gpx version=\"1.1\" creator=\"x\" xmlns=\"{NAMESPACE}\">\n{within}\n</gpx>\n")
}

fn fault(text: &str) -> String {
    read(text.as_bytes()).unwrap_err().to_string()
}

#[test]
fn points_routes_and_tracks_are_read() {
    let text = file(
        "<metadata><name>Day &amp; night</name></metadata>
         <wpt lat='52.25' lon=\"-27.1\"><ele>3</ele><name>Slip</name><desc>two\n lines</desc></wpt>
         <rte><name>R</name><rtept lat='1' lon='2'/><rtept lat='3' lon='4'><name>B</name></rtept></rte>
         <trk><name>T</name><trkseg>
           <trkpt lat='1.5' lon='2.5'><ele>1</ele><time>2026-06-14T09:30:00Z</time></trkpt>
           <trkpt lat='1.6' lon='2.6'/>
         </trkseg><trkseg/><trkseg><trkpt lat='1.7' lon='2.7'/></trkseg></trk>",
    );
    let read = read(text.as_bytes()).unwrap();
    assert_eq!((read.title.as_str(), read.creator.as_str()), ("Day & night", "x"));
    assert_eq!(
        (read.waypoints[0].name.as_str(), read.waypoints[0].note.as_str()),
        ("Slip", "two lines")
    );
    assert_eq!(read.routes[0].points[1].name, "B");
    assert_eq!(read.tracks[0].name(), "T");
    assert_eq!(read.tracks[0].segments().map(<[_]>::len).collect::<Vec<_>>(), [2, 1]);
    assert_eq!(read.left_out, ["2 heights are left out"]);
}

#[test]
fn what_is_wrong_is_said_where_it_is() {
    assert_eq!(
        fault(&file("<wpt lat='91' lon='2'/>")),
        "2:1: latitude 91 is not within -90 to 90 degrees"
    );
}
