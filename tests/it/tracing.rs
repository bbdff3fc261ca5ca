//! Tracing a shore in the real program, by keys and by mouse, from the first anchor to the file.

use serde_json::Value;

use crate::driver::{Home, Terminal, passage_text};

const SIZE: (u16, u16) = (160, 48);

/// Goes to a reference.
fn go(terminal: &mut Terminal, reference: &str) {
    terminal.keys("/");
    terminal.wait_for(&["Go to"]);
    terminal.keys(&format!("{reference}\r"));
    terminal.wait_for(&[&format!("at {reference}")]);
}

/// Begins at the mouth of an inlet, seen closely.
fn begin(terminal: &mut Terminal) {
    terminal.wait_for(&["? all"]);
    go(terminal, "QB 818 461");
    terminal.keys("c+++t");
    terminal.wait_for(&["trace │", "catches the shore"]);
}

fn route_json(home: &Home) -> Value {
    let out = home.run(&["route", "show", "--json"]);
    assert!(out.status.success(), "{}", String::from_utf8_lossy(&out.stderr));
    serde_json::from_slice(&out.stdout).unwrap()
}

#[test]
fn a_shore_traced_by_keys_is_a_leg_with_the_figures_of_the_command_line() {
    let home = Home::new();
    let mut terminal = home.terminal(SIZE, &[]);
    begin(&mut terminal);
    terminal.keys("\r");
    terminal.wait_for(&["1 anchor"]);
    go(&mut terminal, "QB 824 474");
    terminal.keys("\r");
    terminal.wait_for(&["2 anchors", "slope"]);
    go(&mut terminal, "QB 836 482");
    terminal.keys("\r");
    let tracing = terminal.wait_for(&["3 anchors"]);
    terminal.keys("s");
    terminal.wait_for(&["Stand-off"]);
    terminal.keys("\x1550 m\r");
    // The line without a stand-off stands until the other is laid beside the loop.
    let off = terminal.wait("the line 50 m off", |screen| {
        let seen = screen.contents();
        seen.contains("50 m off") && !seen.contains("50 m off, not yet")
    });
    assert_ne!(tracing, off);
    terminal.keys("r");
    terminal.wait_for(&["leg 1 runs along the shore"]);
    terminal.keys("\x1b");
    terminal.wait_for(&["look │"]);
    terminal.keys("]");
    let screen = terminal.wait_for(&["─ leg 1", "retrace", "with the stream"]);
    terminal.keys("q");
    assert!(terminal.wait_end().success());

    let json = route_json(&home);
    let leg = &json["legs"][0];
    assert_eq!(leg["along"]["stand_off_m"], 50.0);
    let stretches = leg["along"]["stretches"].as_array().unwrap();
    let ends = [stretches.first().unwrap(), stretches.last().unwrap()];
    let leg_texts = ["nautical_miles", "kilometres"].map(|it| &leg["text"][it]);
    // Times are those of the passage.
    for name in ["time_s", "arrives"] {
        let text = passage_text(&json["passage"]["legs"][0][name]);
        assert!(screen.contains(&text), "{name} {text} is not on the screen\n{screen}");
    }
    let end_texts = ends
        .iter()
        .flat_map(|end| ["from_true", "from_grid", "from_magnetic"].map(|name| &end["text"][name]));
    for text in leg_texts.into_iter().chain(end_texts) {
        let text = text.as_str().unwrap();
        assert!(screen.contains(text), "{text:?} is not on the screen\n{screen}");
    }
    // What the trace said of the line it says as a leg.
    let kilometres = leg["text"]["kilometres"].as_str().unwrap();
    assert!(off.contains(kilometres), "{kilometres} was not read while tracing\n{off}");
    for name in ["straight_kilometres", "times_longer"] {
        let text = leg["along"]["text"][name].as_str().unwrap();
        assert!(off.contains(text), "{name}: {text}\n{off}");
    }
}

/// The cell of the screen on which `mark` stands that is not in `but`.
fn find(terminal: &Terminal, mark: &str) -> (u16, u16) {
    terminal.find(mark).unwrap_or_else(|| panic!("no {mark:?} on the screen"))
}

#[test]
fn the_mouse_catches_lays_drags_and_makes_the_leg() {
    let home = Home::new();
    let mut terminal = home.terminal(SIZE, &[]);
    begin(&mut terminal);
    // The caught place is marked before the click, wherever the pointer is.
    let caught = find(&terminal, "×");
    terminal.hover((caught.0 + 3, caught.1));
    terminal.wait_for(&["catches the shore"]);
    terminal.click(caught);
    terminal.wait_for(&["1 anchor", "◉"]);
    // Twelve rows up the inlet goes on.
    let up = (caught.0 + 6, caught.1 - 9);
    terminal.hover(up);
    terminal.wait_for(&["1 anchor and the cursor"]);
    terminal.click(up);
    let laid = terminal.wait_for(&["2 anchors"]);
    terminal.drag(caught, (caught.0, caught.1 + 3));
    terminal.wait("another line", |screen| {
        let screen = screen.contents();
        screen.contains("2 anchors") && screen != laid
    });
    // The foot says other things while the anchor is held.
    terminal.wait_for(&["to route"]);
    let hint = find(&terminal, "to route");
    terminal.click(hint);
    terminal.wait_for(&["leg 1 runs along the shore", "①", "②"]);
    terminal.keys("q");
    assert!(terminal.wait_end().success());
    assert_eq!(route_json(&home)["points"].as_array().unwrap().len(), 2);
}

#[test]
fn a_measurement_is_no_part_of_the_route_and_there_on_the_next_start_until_it_is_cleared() {
    let home = Home::new();
    let mut terminal = home.terminal(SIZE, &[]);
    begin(&mut terminal);
    terminal.keys("\r");
    go(&mut terminal, "QB 836 482");
    terminal.keys("\r");
    terminal.wait_for(&["2 anchors"]);
    terminal.keys("\x1b");
    terminal.wait_for(&["look │"]);
    terminal.keys("q");
    assert!(terminal.wait_end().success());

    let mut again = home.terminal(SIZE, &[]);
    let screen = again.wait_for(&["look │", "·  trace ", "◉"]);
    assert!(screen.contains("no waypoint yet"));
    again.keys("X");
    again.wait_for(&["the line is cleared"]);
    again.keys("q");
    assert!(again.wait_end().success());
    let third = home.terminal(SIZE, &[]);
    third.wait_for(&["look │", "saved"]);
    assert!(third.find("·  trace ").is_none() && third.find("◉").is_none());
}
