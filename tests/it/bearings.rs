//! Bearings of marks in the real program: typed, kept when it is left or killed, and gone on with.

use crate::driver::{Home, Terminal};

const SIZE: (u16, u16) = (80, 24);

fn started(home: &Home, word: &str) -> Terminal {
    let terminal = home.terminal(SIZE, &[]);
    terminal.wait_for(&["? all", word]);
    terminal
}

/// Goes to a mark by its name and types its bearing, which a digit begins.
fn take(terminal: &mut Terminal, name: &str, bearing: &str) {
    terminal.keys("/");
    terminal.wait_for(&["jump │"]);
    terminal.keys(name);
    terminal.wait_for(&[name]);
    terminal.keys("\r");
    terminal.wait_for(&[&format!("at {name}")]);
    terminal.keys(bearing);
    terminal.wait_for(&["Bearing from you", "ask │"]);
    terminal.keys("\r");
    terminal.wait_for(&["fix │", &format!("{bearing}°M")]);
}

#[test]
fn bearings_are_there_again_after_the_program_is_left_or_killed() {
    let home = Home::new();
    let mut terminal = started(&home, "");
    terminal.keys("F");
    terminal.wait_for(&["fix │"]);
    take(&mut terminal, "Rovunna", "338");
    terminal.signal("KILL");
    assert!(!terminal.wait_end().success());

    let mut terminal = started(&home, "1 bearing is kept; F goes on with the fix");
    terminal.keys("F");
    terminal.wait_for(&["fix │"]);
    take(&mut terminal, "Point of Innussel l", "040");
    let fixed = |screen: &str| {
        let line = screen.lines().find(|line| line.contains("cut")).unwrap_or_default();
        line.split("3° off").next().unwrap_or_default().trim().to_owned()
    };
    let before = fixed(&terminal.wait_for(&["3° off"]));
    assert!(before.starts_with("fix QB 84"), "{before}");
    terminal.keys("q");
    assert!(terminal.wait_end().success());

    let mut terminal = started(&home, "2 bearings are kept; F goes on with the fix");
    terminal.keys("F");
    assert_eq!(fixed(&terminal.wait_for(&["3° off"])), before);
    // Taken back and killed at once: what was taken back stays so.
    terminal.keys("\x7f");
    terminal.wait_for(&["338°M", "a second line"]);
    terminal.signal("KILL");
    assert!(!terminal.wait_end().success());
    let mut terminal = started(&home, "1 bearing is kept");
    terminal.keys("q");
    assert!(terminal.wait_end().success());
}
