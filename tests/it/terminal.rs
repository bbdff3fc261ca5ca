//! The real program in a pseudo-terminal, from the first key to the last byte.

use serde_json::Value;

use crate::driver::{Home, Terminal, passage_text};

const RIGHT: &str = "\x1b[C";
const DOWN: &str = "\x1b[B";
const SIZE: (u16, u16) = (120, 40);

/// Drops three waypoints: where the cursor starts, east of it and south of that.
fn three_waypoints(terminal: &mut Terminal) {
    terminal.wait_for(&["? all"]);
    terminal.keys("\r");
    terminal.keys(&RIGHT.repeat(24));
    terminal.keys("\r");
    terminal.wait_for(&["①", "②"]);
    terminal.keys(&DOWN.repeat(24));
    terminal.keys("\r");
    terminal.wait_for(&["③"]);
}

/// The route as it lies on disk.
fn route(home: &Home) -> plan::Route {
    files::open_route(&home.route_file()).unwrap()
}

/// The bytes that give a terminal back: the alternate screen left, the mouse let go, the cursor shown.
fn gives_back(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    let last = |what: &str| text.rfind(what);
    for (on, off) in [
        ("\x1b[?1049h", "\x1b[?1049l"),
        ("\x1b[?1000h", "\x1b[?1000l"),
        ("\x1b[?1006h", "\x1b[?1006l"),
        ("\x1b[?25l", "\x1b[?25h"),
    ] {
        assert!(last(off) > last(on), "{on:?} was not taken back by {off:?}");
    }
}

/// The column of readings of a wide screen, without what is blank behind its rows.
fn readings(screen: &vt100::Screen) -> Vec<String> {
    let column = SIZE.0 - 36;
    screen.rows(column, 36).map(|row| row.trim_end().to_owned()).collect()
}

/// Whether the readings are of the passage, down to the sum below the legs: its clock is that of the
/// whole in the pane of times above.
fn is_whole(readings: &[String]) -> bool {
    let clock = |row: Option<&String>| Some(row?.split_whitespace().next_back()?.to_owned());
    let sum = clock(readings.iter().rfind(|row| row.contains("NM")));
    let whole = clock(readings.iter().rfind(|row| row.trim_start().starts_with("whole")));
    sum == whole && readings.iter().any(|row| row.contains("with the stream"))
}

/// The parameters of every sequence in `bytes` that sets how characters look.
fn looks(bytes: &[u8]) -> Vec<String> {
    let text = String::from_utf8_lossy(bytes);
    text.split("\x1b[")
        .skip(1)
        .filter_map(|rest| {
            let end = rest.find(|c: char| !c.is_ascii_digit() && c != ';' && c != ':')?;
            rest[end..].starts_with('m').then(|| rest[..end].to_owned())
        })
        .collect()
}

#[test]
fn a_day_laid_out_is_there_on_the_next_start() {
    let home = Home::new();
    let mut terminal = home.terminal(SIZE, &[]);
    three_waypoints(&mut terminal);

    let third = terminal.find("③").unwrap();
    terminal.drag(third, (third.0 + 6, third.1 - 2));
    terminal.wait("the third waypoint moved", |screen| {
        let cell = screen.cell(third.1 - 2, third.0 + 6);
        cell.is_some_and(|cell| cell.contents() == "③")
    });

    terminal.keys("r");
    terminal.wait_for(&["Name"]);
    terminal.keys("Lunch\r");
    terminal.wait_for(&["Lunch"]);
    terminal.keys("u");
    terminal.wait_without("Lunch");
    terminal.keys("u");
    terminal.wait("the third waypoint back", |screen| {
        let cell = screen.cell(third.1, third.0);
        cell.is_some_and(|cell| cell.contents() == "③")
    });
    terminal.keys("U");
    terminal.wait("the third waypoint moved again", |screen| {
        let cell = screen.cell(third.1 - 2, third.0 + 6);
        cell.is_some_and(|cell| cell.contents() == "③")
    });
    terminal.keys("q");
    assert!(terminal.wait_end().success());
    gives_back(&terminal.bytes());
    assert!(terminal.is_given_back());
    assert_eq!(route(&home).points.len(), 3);

    let again = home.terminal(SIZE, &[]);
    again.wait_for(&["①", "②", "③"]);
    assert_eq!(again.find("③"), Some((third.0 + 6, third.1 - 2)));
}

#[test]
fn the_leg_strip_is_found_as_it_was_left() {
    let home = Home::new();
    let mut terminal = home.terminal(SIZE, &[]);
    terminal.wait_for(&["? all", "a leg is unrolled here"]);
    terminal.keys("x");
    terminal.wait_without("a leg is unrolled here");
    terminal.keys("q");
    assert!(terminal.wait_end().success());
    let mut again = home.terminal(SIZE, &[]);
    again.wait_for(&["? all"]);
    assert_eq!(again.find("a leg is unrolled here"), None);
    again.keys("x");
    again.wait_for(&["a leg is unrolled here"]);
}

#[test]
fn the_command_line_prints_the_numbers_of_the_screen() {
    let home = Home::new();
    let mut terminal = home.terminal((200, 60), &[]);
    three_waypoints(&mut terminal);
    // Look, with each leg lit in turn, then with the cursor on each waypoint.
    terminal.keys("\x1b");
    terminal.wait_for(&["look │"]);
    let mut legs = Vec::new();
    for key in ["]", "]"] {
        terminal.keys(key);
        let leg = format!("─ leg {}", legs.len() + 1);
        legs.push(terminal.wait_for(&[&leg, "with the stream"]));
    }
    terminal.keys("q");
    assert!(terminal.wait_end().success());

    let out = home.run(&["route", "show", "--json"]);
    assert!(out.status.success(), "{}", String::from_utf8_lossy(&out.stderr));
    let json: Value = serde_json::from_slice(&out.stdout).unwrap();
    let shown = |screen: &str, what: &Value| {
        let text = what.as_str().unwrap();
        assert!(screen.contains(text), "{text:?} is not on the screen\n{screen}");
    };
    assert_eq!(json["legs"].as_array().unwrap().len(), legs.len());
    for (screen, leg) in legs.iter().zip(json["legs"].as_array().unwrap()) {
        let text = &leg["text"];
        for name in [
            "from_true",
            "from_grid",
            "from_magnetic",
            "back_true",
            "back_grid",
            "back_magnetic",
            "nautical_miles",
            "kilometres",
        ] {
            shown(screen, &text[name]);
        }
        for name in ["nautical_miles", "kilometres"] {
            shown(screen, &json["total"]["text"][name]);
        }
        // Times are those of the passage.
        let index = leg["number"].as_u64().unwrap() as usize - 1;
        let passed = &json["passage"]["legs"][index];
        let whole = &json["passage"];
        for time in [&passed["time_s"], &passed["arrives"], &whole["elapsed_s"], &whole["arrives"]]
        {
            shown(screen, &Value::from(passage_text(time)));
        }
    }
    // The cursor stands on the last waypoint.
    shown(&legs[0], &json["points"][2]["text"]["reference"]);
}

#[test]
fn signals_give_the_terminal_back() {
    for (signal, number) in [("TERM", 15), ("HUP", 1)] {
        let home = Home::new();
        let mut terminal = home.terminal(SIZE, &[]);
        three_waypoints(&mut terminal);
        assert!(!terminal.is_given_back());
        terminal.signal(signal);
        let status = terminal.wait_end();
        assert!(!status.success(), "SIG{signal} ({number}): {status:?}");
        gives_back(&terminal.bytes());
        assert!(terminal.is_given_back(), "SIG{signal}");
        assert_eq!(route(&home).points.len(), 3, "SIG{signal}");
    }
}

#[test]
fn a_suspended_program_gives_the_terminal_back_and_takes_it_again() {
    let home = Home::new();
    let mut terminal = home.terminal(SIZE, &[]);
    three_waypoints(&mut terminal);
    terminal.keys("\x1a");
    terminal.wait("the shell's screen", |screen| !screen.alternate_screen());
    terminal.wait_stopped();
    gives_back(&terminal.bytes());
    assert!(terminal.is_given_back());
    terminal.signal("CONT");
    terminal.wait("the program's screen again", |screen| {
        screen.alternate_screen() && screen.contents().contains("③")
    });
    assert!(!terminal.is_given_back());
    terminal.keys("q");
    assert!(terminal.wait_end().success());
}

#[test]
fn every_size_is_borne_and_nothing_is_lost_by_it() {
    let home = Home::new();
    let mut terminal = home.terminal(SIZE, &[]);
    three_waypoints(&mut terminal);
    // The passage is made beside the loop, and rows come one after another.
    terminal.wait("the whole passage", |screen| is_whole(&readings(screen)));
    let before = terminal.look(readings);
    assert!(before.iter().any(|row| row.contains("NM")), "{before:?}");
    terminal.resize(60, 20);
    terminal.wait_for(&["③", "NM"]);
    terminal.resize(10, 3);
    terminal.wait_for(&["60×20"]);
    terminal.resize(SIZE.0, SIZE.1);
    terminal.wait("the readings as they were", |screen| readings(screen) == before);
    terminal.keys("q");
    assert!(terminal.wait_end().success());
}

#[test]
fn a_terminal_of_no_size_is_waited_out() {
    let home = Home::new();
    let mut terminal = home.terminal((0, 0), &[]);
    terminal.wait("the program's screen", vt100::Screen::alternate_screen);
    terminal.resize(80, 24);
    terminal.wait_for(&["? all"]);
    terminal.keys("q");
    assert!(terminal.wait_end().success());
}

#[test]
fn without_a_terminal_it_says_so() {
    let out = Home::new().run(&[]);
    assert_eq!(out.status.code(), Some(2));
    let message = String::from_utf8(out.stderr).unwrap();
    assert!(message.contains("terminal"), "{message}");
    assert!(out.stdout.is_empty());
}

#[test]
fn a_screen_is_drawn_to_a_file_and_no_file_is_lost() {
    let home = Home::new();
    let args = ["screen", "--size", "60x20", "--keys", "Enter Right*20 Enter", "-o", "screen.svg"];
    assert_eq!(home.run(&args).status.code(), Some(0));
    let path = home.path().join("screen.svg");
    let drawn = std::fs::read_to_string(&path).unwrap();
    assert!(drawn.starts_with("<svg") && drawn.contains("such"), "{drawn}");

    std::fs::write(&path, "mine").unwrap();
    let again = home.run(&args);
    assert_eq!(again.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&again.stderr).contains("--force"));
    assert_eq!(std::fs::read_to_string(&path).unwrap(), "mine");
    let forced = home.run(&[&args[..], &["--force"]].concat());
    assert_eq!(forced.status.code(), Some(0));
    assert_eq!(std::fs::read_to_string(&path).unwrap(), drawn);
}

#[test]
fn keys_that_are_none_are_told_by_their_column() {
    let out = Home::new().run(&["screen", "--keys", "Enter Entr"]);
    assert_eq!(out.status.code(), Some(2));
    let message = String::from_utf8(out.stderr).unwrap();
    assert!(message.contains("column 7") && message.contains("Entr"), "{message}");
}

#[test]
fn without_colour_no_colour_is_sent() {
    let home = Home::new();
    let coloured = |terminal: &Terminal| {
        looks(&terminal.bytes()).iter().any(|look| {
            look.split([';', ':'])
                .any(|one| matches!(one.parse(), Ok(30..=38 | 40..=48 | 90..=97 | 100..=107)))
        })
    };
    let mut plain = home.terminal_with(SIZE, &[], &[("NO_COLOR", "1")]);
    three_waypoints(&mut plain);
    assert!(!coloured(&plain), "{:?}", looks(&plain.bytes()));
    assert!(!looks(&plain.bytes()).is_empty(), "bold and reverse remain");
    plain.keys("q");
    assert!(plain.wait_end().success());

    let with = home.terminal_with(SIZE, &[], &[("COLORTERM", "truecolor")]);
    with.wait_for(&["③"]);
    assert!(coloured(&with));
}

#[test]
fn what_an_editor_writes_into_an_open_route_is_kept_beside_it() {
    let home = Home::new();
    let mut terminal = home.terminal(SIZE, &[]);
    three_waypoints(&mut terminal);
    terminal.wait_for(&["saved"]);
    let path = home.route_file();
    let edited = std::fs::read_to_string(&path).unwrap().replace("title: \"\"", "title: \"Mine\"");
    std::fs::write(&path, &edited).unwrap();
    terminal.keys("u");
    terminal.wait_for(&["another program changed the route's file"]);
    assert_eq!(files::open_route(&path).unwrap().points.len(), 2);
    let kept = path.with_extension("other-1.ron");
    assert_eq!(std::fs::read_to_string(kept).unwrap(), edited);
    terminal.keys("q");
    assert!(terminal.wait_end().success());
}

#[test]
fn a_second_program_on_a_route_only_reads_it() {
    let home = Home::new();
    let mut first = home.terminal(SIZE, &[]);
    three_waypoints(&mut first);
    let mut second = home.terminal(SIZE, &[]);
    second.wait_for(&["③", "read-only"]);
    second.keys("\r");
    second.keys("u");
    second.keys("q");
    assert!(second.wait_end().success());
    first.keys("q");
    assert!(first.wait_end().success());
    assert_eq!(route(&home).points.len(), 3);
    let third = home.terminal(SIZE, &[]);
    third.wait_for(&["③"]);
    assert!(third.find("read-only").is_none());
}

#[test]
fn names_that_command_a_terminal_reach_it_as_plain_text() {
    let home = Home::new();
    let mut terminal = home.terminal((200, 60), &[]);
    three_waypoints(&mut terminal);
    terminal.keys("r");
    terminal.wait_for(&["Name"]);
    terminal.keys("Lunch\r");
    terminal.wait_for(&["Lunch"]);
    terminal.keys("q");
    assert!(terminal.wait_end().success());

    let path = home.route_file();
    let text = std::fs::read_to_string(&path).unwrap();
    let bad = r"\u{1b}]0;owned\u{7}\u{1b}[31m\u{202e}\u{9b}2J";
    std::fs::write(&path, text.replace("Lunch", bad)).unwrap();

    let terminal = home.terminal((200, 60), &[]);
    terminal.wait_for(&["③", "]0;owned"]);
    let bytes = terminal.bytes();
    let sent = String::from_utf8_lossy(&bytes);
    for never in ["\x1b]0;", "\u{202e}", "\u{9b}", "\u{7}"] {
        assert!(!sent.contains(never), "{never:?} reached the terminal");
    }
}

/// What the Water pane says of the moment: its line and the height of tide.
fn water(screen: &vt100::Screen) -> Option<(String, String)> {
    let rows = readings(screen);
    let at = rows.iter().position(|row| row.starts_with("Water"))?;
    Some((rows.get(at + 1)?.clone(), rows.get(at + 2)?.clone()))
}

#[test]
fn time_is_moved_by_keys_and_runs_by_itself_until_it_is_stopped() {
    let home = Home::new();
    let mut terminal = home.terminal(SIZE, &[]);
    terminal.wait_for(&["? all", "09:00 UTC"]);
    let first = terminal.look(water).unwrap();
    terminal.keys("}>");
    terminal.wait_for(&["+1 h 10"]);
    assert_ne!(terminal.look(water).unwrap().1, first.1, "the height goes with the time");
    terminal.keys("P");
    terminal.wait_for(&["time runs"]);
    let running = terminal.look(water).unwrap();
    // Several ticks, none of which is asked for by a key.
    for _ in 0..3 {
        let before = terminal.look(water);
        terminal.wait("the time runs on", |screen| water(screen) != before);
    }
    assert_ne!(terminal.look(water).unwrap().0, running.0);
    terminal.keys("<");
    terminal.wait_without("time runs");
    terminal.keys("y");
    terminal.wait_for(&["Tide at ", "weather and surge left out"]);
    terminal.keys("y@");
    let is_at_departure = |screen: &vt100::Screen| water(screen).unwrap_or_default().0 == first.0;
    terminal.wait("the time of departure", is_at_departure);
    // The departure is on the next day: now is another time, be it nine o'clock, too.
    terminal.keys("N");
    terminal.wait("another time", |screen| !is_at_departure(screen));
    // It leaves while time runs, too.
    terminal.keys("P");
    terminal.wait_for(&["time runs"]);
    terminal.keys("q");
    assert!(terminal.wait_end().success());
    gives_back(&terminal.bytes());
}
