//! What the terminal reports, as messages.

use std::io;
use std::sync::mpsc::Sender;
use std::thread;
use std::time::Duration;

use ratatui::crossterm::event::{
    self, KeyCode, KeyEvent, KeyEventKind, KeyModifiers, MouseButton, MouseEvent, MouseEventKind,
};

use super::{Event, size_of};
use crate::action::{Code, Key, Named};
use crate::{Gesture, Msg, Pointer};

/// Sends what the terminal reports, until it is gone. A change of size after this call is
/// reported for certain: the first look for events is what sets up the watch for it.
pub(super) fn listen(sender: Sender<Event>) -> io::Result<()> {
    event::poll(Duration::ZERO)?;
    thread::spawn(move || {
        loop {
            let event = match event::read() {
                Ok(event) => message(event).map(Event::Msg),
                Err(error) => {
                    // Nobody listening means that the program is leaving.
                    let _ = sender.send(Event::Lost(error));
                    return;
                }
            };
            if event.is_some_and(|event| sender.send(event).is_err()) {
                return;
            }
        }
    });
    Ok(())
}

/// What a report means; nothing for one that means nothing.
fn message(event: event::Event) -> Option<Msg> {
    match event {
        event::Event::Key(pressed) => key(pressed).map(Msg::Key),
        event::Event::Mouse(mouse) => pointer(mouse).map(Msg::Pointer),
        event::Event::Paste(text) => Some(Msg::Paste(text)),
        event::Event::Resize(width, height) => Some(Msg::Resize(size_of((width, height)))),
        event::Event::FocusLost => Some(Msg::FocusLost),
        event::Event::FocusGained => None,
    }
}

fn key(pressed: KeyEvent) -> Option<Key> {
    if pressed.kind == KeyEventKind::Release {
        return None;
    }
    let code = match pressed.code {
        KeyCode::Char(c) => Code::Char(c),
        KeyCode::F(n) => Code::F(n),
        KeyCode::Enter => Code::Named(Named::Enter),
        KeyCode::Esc => Code::Named(Named::Esc),
        KeyCode::Tab | KeyCode::BackTab => Code::Named(Named::Tab),
        KeyCode::Backspace => Code::Named(Named::Backspace),
        KeyCode::Delete => Code::Named(Named::Delete),
        KeyCode::Insert => Code::Named(Named::Insert),
        KeyCode::Home => Code::Named(Named::Home),
        KeyCode::End => Code::Named(Named::End),
        KeyCode::PageUp => Code::Named(Named::PageUp),
        KeyCode::PageDown => Code::Named(Named::PageDown),
        KeyCode::Left => Code::Named(Named::Left),
        KeyCode::Right => Code::Named(Named::Right),
        KeyCode::Up => Code::Named(Named::Up),
        KeyCode::Down => Code::Named(Named::Down),
        _ => return None,
    };
    let held = |modifier| pressed.modifiers.contains(modifier);
    let shift = held(KeyModifiers::SHIFT) || pressed.code == KeyCode::BackTab;
    let (ctrl, alt) = (held(KeyModifiers::CONTROL), held(KeyModifiers::ALT));
    Some(Key { code, ctrl, alt, shift }.normal())
}

fn pointer(MouseEvent { kind, column, row, modifiers }: MouseEvent) -> Option<Pointer> {
    // With Shift the pointer is the terminal's own, for selecting text.
    if modifiers.contains(KeyModifiers::SHIFT) {
        return None;
    }
    let what = match kind {
        MouseEventKind::Down(MouseButton::Left) => Gesture::Press,
        MouseEventKind::Drag(MouseButton::Left) => Gesture::Drag,
        MouseEventKind::Up(MouseButton::Left) => Gesture::Release,
        MouseEventKind::Moved => Gesture::Hover,
        MouseEventKind::ScrollUp => Gesture::WheelUp,
        MouseEventKind::ScrollDown => Gesture::WheelDown,
        _ => return None,
    };
    Some(Pointer { what, column, row })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_come_in_the_form_in_which_they_are_named() {
        let name = |code, modifiers| key(KeyEvent::new(code, modifiers)).map(|key| key.to_string());
        let none = KeyModifiers::NONE;
        assert_eq!(name(KeyCode::Char('U'), KeyModifiers::SHIFT).as_deref(), Some("U"));
        assert_eq!(name(KeyCode::Char('p'), KeyModifiers::CONTROL).as_deref(), Some("Ctrl-P"));
        assert_eq!(name(KeyCode::BackTab, KeyModifiers::SHIFT).as_deref(), Some("Shift-Tab"));
        assert_eq!(name(KeyCode::BackTab, none).as_deref(), Some("Shift-Tab"));
        assert_eq!(
            name(KeyCode::Char('H'), KeyModifiers::ALT | KeyModifiers::SHIFT).as_deref(),
            Some("Alt-H")
        );
        assert_eq!(name(KeyCode::CapsLock, none), None);
    }

    #[test]
    fn every_named_key_can_be_pressed() {
        use KeyCode::*;
        let codes = [
            Enter, Esc, Tab, Backspace, Delete, Insert, Home, End, PageUp, PageDown, Left, Right,
            Up, Down,
        ];
        for code in codes {
            let pressed = key(KeyEvent::new(code, KeyModifiers::NONE)).unwrap();
            assert_eq!(pressed.to_string(), format!("{code:?}"));
        }
    }
}
