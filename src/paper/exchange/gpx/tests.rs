//! What receivers and other programs write, and what they should not have.

mod bad;
mod order;

use nav::Length;

use super::*;
use crate::exchange::Foreign;

fn file(within: &str) -> String {
    format!("<gpx version=\"1.1\" creator=\"x\" xmlns=\"{NAMESPACE}\">\n{within}\n</gpx>\n")
}

fn good(text: &str) -> Foreign {
    read(text.as_bytes()).unwrap_or_else(|error| panic!("{error}\n{text}"))
}

#[test]
fn points_routes_and_tracks_are_read() {
    let file = good(&file(
        "<metadata><name>Day &amp; night</name><time>2026-01-01T00:00:00Z</time>
           <bounds minlat='1' minlon='1' maxlat='2' maxlon='2'/></metadata>
         <wpt lat='52.25' lon=\"-27.1\"><ele>3</ele><name>Slip</name><desc>two\n lines</desc></wpt>
         <rte><name>R</name><rtept lat='1' lon='2'/><rtept lat='3' lon='4'><name>B</name></rtept></rte>
         <trk><name>T</name><trkseg>
           <trkpt lat='1.5' lon='2.5'><ele>1</ele><time>2026-06-14T09:30:00Z</time></trkpt>
           <trkpt lat='1.6' lon='2.6'/>
         </trkseg><trkseg/><trkseg><trkpt lat='1.7' lon='2.7'/></trkseg></trk>",
    ));
    assert_eq!((file.title.as_str(), file.creator.as_str()), ("Day & night", "x"));
    let slip = &file.waypoints[0];
    assert_eq!((slip.name.as_str(), slip.note.as_str()), ("Slip", "two lines"));
    assert_eq!((slip.at.lat.as_degrees(), slip.at.lon.as_degrees()), (52.25, -27.1));
    assert_eq!(file.routes[0].points[1].name, "B");
    let track = &file.tracks[0];
    assert_eq!(track.name(), "T");
    assert_eq!(track.segments().map(<[_]>::len).collect::<Vec<_>>(), [2, 1]);
    let when = track.fixes()[0].when().unwrap();
    assert_eq!(when.to_string(), "2026-06-14T09:30:00Z");
    assert_eq!(track.fixes()[1].when(), None);
    assert_eq!(slip.kept.as_ref().unwrap().height, Some(3.0 * Length::METRE));
    // That of the fix.
    assert_eq!(file.left_out, ["heights are left out (1)"]);
}

#[test]
fn text_is_read_however_it_is_written() {
    let named = |name: &str| {
        good(&file(&format!("<wpt lat='1' lon='2'>{name}</wpt>"))).waypoints[0].name.clone()
    };
    assert_eq!(named("<name>Sam &amp; Co &#x26; &#38;</name>"), "Sam & Co & &");
    assert_eq!(named("<name><![CDATA[<b> & so]]></name>"), "<b> & so");
    assert_eq!(named("<name>a<!-- no -->b<?no?>c</name>"), "abc");
    assert_eq!(named("<name>a<i>no</i>b</name>"), "ab");
    assert_eq!(named("<name/>"), "");
    assert_eq!(named("<name>  礁の浜\r\n </name>"), "礁の浜");
}

#[test]
fn prefixes_and_other_namespaces_are_told_apart() {
    let text = format!(
        "<?xml version=\"1.0\" encoding=\"utf-8\"?>
         <g:gpx version='1.1' creator='x' xmlns:g='{NAMESPACE}' xmlns='urn:other'>
           <wpt lat='9' lon='9'/>
           <g:wpt lat='1' lon='2'><name>not this</name><g:name>this</g:name>
             <g:extensions><g:name>nor this</g:name></g:extensions></g:wpt>
         </g:gpx>"
    );
    let file = good(&text);
    assert_eq!(file.waypoints.len(), 1);
    assert_eq!(file.waypoints[0].name, "this");
}

#[test]
fn version_1_0_and_files_without_a_namespace_are_read() {
    let old = "<gpx version='1.0' creator='x' xmlns='http://www.topografix.com/GPX/1/0'><name>Old</name>
      <author>A</author><trk><trkseg><trkpt lat='1' lon='2'><speed>1</speed></trkpt></trkseg></trk></gpx>";
    let file = good(old);
    assert_eq!((file.title.as_str(), file.tracks[0].fixes().len()), ("Old", 1));
    assert_eq!(
        file.left_out,
        [
            "qualities of fixes are left out, such as their satellites (1)",
            "author, licence, key words and description of the file are left out (1)"
        ]
    );
    assert_eq!(good("\u{feff}<gpx><wpt lat='1' lon='2'/></gpx>").waypoints.len(), 1);
}

#[test]
fn times_of_all_zones_are_one_time_and_that_is_said() {
    let fix = |time: &str| format!("<trkpt lat='1' lon='2'><time>{time}</time></trkpt>");
    let times = [
        "2026-06-14T09:30:00Z",
        "2026-06-14T11:30:00+02:00",
        "2026-06-14T09:30:00",
        "2026-06-14T05:30:00.000-04:00",
    ];
    let fixes: String = times.iter().map(|time| fix(time)).collect();
    let file = good(&file(&format!("<trk><trkseg>{fixes}</trkseg></trk>")));
    for fix in file.tracks[0].fixes() {
        assert_eq!(fix.when().unwrap().to_string(), "2026-06-14T09:30:00Z");
    }
    assert_eq!(
        file.left_out,
        [
            "times are in a zone of their own, and are turned into UTC (2)",
            "times have no zone, and are taken for UTC (1)"
        ]
    );
}

#[test]
fn a_comment_comes_before_a_description() {
    let note = |within: &str| {
        let file = good(&file(&format!("<wpt lat='1' lon='2'>{within}</wpt>")));
        assert_eq!(file.left_out, [""; 0]);
        let point = &file.waypoints[0];
        let kept = point.kept.as_ref().map(|kept| kept.description.clone());
        (point.note.clone(), kept.unwrap_or_default())
    };
    assert_eq!(note("<cmt>c</cmt><desc>d</desc>"), ("c".to_owned(), "d".to_owned()));
    assert_eq!(note("<desc>c</desc><cmt>c</cmt>"), ("c".to_owned(), String::new()));
    assert_eq!(note("<desc>d</desc>"), ("d".to_owned(), String::new()));
}

#[test]
fn what_is_said_of_a_point_is_kept_and_what_is_not_is_counted() {
    let file = good(&file(
        "<rte><link href='https://r.example'/><type>day</type>
           <rtept lat='1' lon='2'><ele>-0.25</ele><time>2026-01-01T00:00:00Z</time><cmt>c</cmt>
             <desc>an old &amp; broken pier</desc><src>survey</src>
             <link href='https://a.example/?a=1&amp;b=2'><text>Pier</text><type>text/html</type></link>
             <link href='b'/><sym>Anchor</sym><type>slip</type><sat>4</sat>
             <extensions><x xmlns='urn:x'>1</x></extensions></rtept>
           <rtept lat='1' lon='2'><ele>high</ele><link/></rtept></rte>",
    ));
    let kept = file.routes[0].points[0].kept.as_deref().unwrap();
    let link = |address: &str, text: &str, kind: &str| plan::Link {
        address: address.to_owned(),
        text: text.to_owned(),
        kind: kind.to_owned(),
    };
    let all = plan::Kept {
        height: Some(-0.25 * Length::METRE),
        symbol: "Anchor".to_owned(),
        class: "slip".to_owned(),
        description: "an old & broken pier".to_owned(),
        links: vec![link("https://a.example/?a=1&b=2", "Pier", "text/html"), link("b", "", "")],
    };
    assert_eq!(kept, &all);
    assert_eq!(file.routes[0].points[1].kept, None);
    assert_eq!(
        file.left_out,
        [
            "heights are left out (1)",
            "times of points that are no fixes are left out (1)",
            "links are left out (2)",
            "sources, classes, numbers and signs are left out (2)",
            "qualities of fixes are left out, such as their satellites (1)",
            "additions in another program's own form are left out (1)"
        ]
    );
}

#[test]
fn a_route_has_room_for_some_links_and_no_cut_address() {
    let link = |address: &str| format!("<link href='{address}'/>");
    let long = link(&"a".repeat(401));
    let many = long + &["a", "b", "c", "d", "e"].map(link).concat();
    let file = good(&file(&format!("<wpt lat='1' lon='2'>{many}</wpt>")));
    let taken = crate::exchange::through(&file.waypoints, "", "C").unwrap();
    let kept = taken.route.points[0].kept.as_ref().unwrap();
    let addresses: Vec<&str> = kept.links.iter().map(|link| link.address.as_str()).collect();
    assert_eq!(addresses, ["a", "b", "c", "d"]);
    assert_eq!(taken.left_out, ["links are left out (2)"]);
}

#[test]
fn nothing_that_steers_a_terminal_comes_out_of_a_file() {
    let steers = "a\u{1b}[2J\u{202e}b\u{9b}c\u{200b}";
    let text = format!(
        "<gpx creator='{steers}'><metadata><name>{steers}</name></metadata>
         <wpt lat='1' lon='2'><name>{steers}&#x9b;</name><cmt>{steers}</cmt></wpt>
         <rte><name>{steers}</name><rtept lat='1' lon='2'/></rte>
         <trk><name>{steers}</name><trkseg><trkpt lat='1' lon='2'/></trkseg></trk><trk/><rte/></gpx>"
    );
    let file = good(&text);
    assert_eq!((file.routes.len(), file.tracks.len()), (1, 1), "what is empty is none");
    let texts = [
        &file.creator,
        &file.title,
        &file.waypoints[0].name,
        &file.waypoints[0].note,
        &file.routes[0].name,
        &file.tracks[0].name().to_owned(),
    ];
    for text in texts {
        assert!(text.starts_with("a�[2J�b�c�"), "{text:?}");
    }
    for bad in [
        format!("<gpx><wpt lat='{steers}' lon='2'/></gpx>"),
        format!(
            "<gpx><trk><trkseg><trkpt lat='1' lon='2'><time>{steers}</time></trkpt></trkseg></trk></gpx>"
        ),
        format!("<gpx><wpt lat='1' lon='2'><name>&{steers};</name></wpt></gpx>"),
        format!("<gpx><wpt lat='&{steers};' lon='2'/></gpx>"),
        format!("<gpx></{steers}></gpx>"),
        format!("<{steers}/>"),
        format!("<?xml version='1.0' encoding='{steers}'?><gpx/>"),
        format!("<gpx><wpt lat='1' lat='2' {steers}/></gpx>"),
        format!(
            "<gpx xmlns:s='{OWN_NAMESPACE}'><rte><extensions><s:route>{steers}</s:route></extensions></rte></gpx>"
        ),
    ] {
        let said = read(bad.as_bytes()).unwrap_err().to_string();
        let steers = |c: char| {
            c.is_control() || matches!(c, '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}')
        };
        assert!(!said.contains(steers), "{said:?}");
    }
}
