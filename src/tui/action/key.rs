//! Keys by name, as the table of actions, a user's key file and `--keys` write them.
//!
//! A name is modifiers and a key joined by `-`: `Enter`, `q`, `?`, `Ctrl-P`, `Shift-Right`,
//! `Alt-Shift-Up`, `F1`. `+` joins as well as `-`. A letter's case is its own Shift: `U` is the
//! key that types a capital U; with Ctrl case does not count.

use std::fmt;
use std::str::FromStr;

/// A key pressed, with the modifiers that count.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Key {
    /// Which key.
    pub code: Code,
    /// Whether Ctrl is held.
    pub ctrl: bool,
    /// Whether Alt is held.
    pub alt: bool,
    /// Whether Shift is held; never set with a character, whose case says it.
    pub shift: bool,
}

/// A key without its modifiers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Code {
    /// A key that types this character.
    Char(char),
    /// The function key of this number.
    F(u8),
    /// A key with a name.
    Named(Named),
}

macro_rules! named {
    ($($name:ident),+ $(,)?) => {
        /// A key that has a name and types nothing.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[allow(missing_docs, reason = "the names on the keys say it")]
        pub enum Named { $($name),+ }

        impl Named {
            const ALL: &'static [(&'static str, Named)] = &[$((stringify!($name), Named::$name)),+];
        }
    };
}

named!(
    Enter, Esc, Tab, Backspace, Delete, Insert, Home, End, PageUp, PageDown, Left, Right, Up, Down
);

/// What is wrong with the name of a key.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum KeyError {
    /// Nothing where a key should be.
    #[error("a key's name is empty; write one like `Enter`, `q` or `Ctrl-P`")]
    Empty,
    /// A word in front that is no modifier.
    #[error("`{0}` is no modifier; `Ctrl`, `Alt` and `Shift` are")]
    Modifier(String),
    /// A word that is no key.
    #[error("no key is called `{0}`; write a single character, `F1` to `F12` or one of {names}", names = names())]
    Unknown(String),
    /// Shift with a character.
    #[error("`Shift-{0}` is written as the character that it types")]
    ShiftedChar(char),
}

fn names() -> String {
    let names: Vec<&str> = Named::ALL.iter().map(|(name, _)| *name).collect();
    format!("`Space`, `{}`", names.join("`, `"))
}

impl Key {
    /// A key without modifiers.
    pub const fn plain(code: Code) -> Key {
        Key { code, ctrl: false, alt: false, shift: false }
    }

    /// A named key without modifiers.
    pub const fn named(name: Named) -> Key {
        Key::plain(Code::Named(name))
    }

    /// The key with the modifiers brought into the one form in which keys are compared: a
    /// character carries its own case, and none with Ctrl.
    #[must_use]
    pub fn normal(mut self) -> Key {
        if let Code::Char(c) = self.code {
            self.shift = false;
            if self.ctrl {
                self.code = Code::Char(c.to_lowercase().next().unwrap_or(c));
            }
        }
        self
    }

    /// The character that this key types into a line of text, if it types one.
    pub fn types(self) -> Option<char> {
        match self.code {
            Code::Char(c) if !self.ctrl && !self.alt => Some(c),
            _ => None,
        }
    }
}

impl FromStr for Key {
    type Err = KeyError;

    fn from_str(text: &str) -> Result<Key, KeyError> {
        let mut key = Key::plain(Code::Char(' '));
        let mut rest = text;
        // The joint is looked for behind the first character, so that `-` and `Ctrl--` are keys.
        while let Some((word, tail)) = split_modifier(rest) {
            match word.to_ascii_lowercase().as_str() {
                "ctrl" => key.ctrl = true,
                "alt" => key.alt = true,
                "shift" => key.shift = true,
                _ => return Err(KeyError::Modifier(word.to_owned())),
            }
            rest = tail;
        }
        key.code = code(rest)?;
        match key.code {
            Code::Char(c) if key.shift => Err(KeyError::ShiftedChar(c)),
            _ => Ok(key.normal()),
        }
    }
}

fn split_modifier(text: &str) -> Option<(&str, &str)> {
    let start = text.chars().next()?.len_utf8();
    let joint = start + text[start..].find(['-', '+'])?;
    let tail = &text[joint + 1..];
    (!tail.is_empty()).then_some((&text[..joint], tail))
}

fn code(word: &str) -> Result<Code, KeyError> {
    let mut chars = word.chars();
    match (chars.next(), chars.next()) {
        (None, _) => return Err(KeyError::Empty),
        (Some(c), None) if !c.is_control() => return Ok(Code::Char(c)),
        _ => {}
    }
    if word.eq_ignore_ascii_case("space") {
        return Ok(Code::Char(' '));
    }
    if let Some((_, named)) = Named::ALL.iter().find(|(name, _)| name.eq_ignore_ascii_case(word)) {
        return Ok(Code::Named(*named));
    }
    let number = word.strip_prefix(['F', 'f']).and_then(|n| n.parse().ok());
    match number {
        Some(n @ 1..=12) => Ok(Code::F(n)),
        _ => Err(KeyError::Unknown(word.to_owned())),
    }
}

impl fmt::Display for Key {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (held, name) in [(self.ctrl, "Ctrl-"), (self.alt, "Alt-"), (self.shift, "Shift-")] {
            if held {
                f.write_str(name)?;
            }
        }
        match self.code {
            Code::Char(' ') => f.write_str("Space"),
            Code::Char(c) if self.ctrl => write!(f, "{}", c.to_uppercase()),
            Code::Char(c) => write!(f, "{c}"),
            Code::F(n) => write!(f, "F{n}"),
            Code::Named(named) => write!(f, "{named:?}"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn key(text: &str) -> Key {
        text.parse().unwrap()
    }

    #[test]
    fn a_name_written_and_read_is_the_same_key() {
        for name in [
            "Enter",
            "q",
            "Q",
            "?",
            "-",
            "+",
            "Ctrl--",
            "Ctrl-P",
            "Alt-Shift-Up",
            "Shift-Tab",
            "F1",
            "F12",
            "Space",
            "é",
            "Alt-x",
        ] {
            assert_eq!(key(name).to_string(), name);
        }
    }

    #[test]
    fn other_ways_of_writing_a_key() {
        assert_eq!(key("ctrl+p"), key("Ctrl-P"));
        assert_eq!(key("pageup"), key("PageUp"));
        assert_eq!(key("f5"), key("F5"));
        assert_ne!(key("u"), key("U"));
    }

    #[test]
    fn a_shifted_letter_from_a_terminal_is_its_capital() {
        let pressed = Key { code: Code::Char('U'), ctrl: false, alt: false, shift: true };
        assert_eq!(pressed.normal(), key("U"));
    }

    #[test]
    fn errors_name_what_is_wrong() {
        let error = |text: &str| text.parse::<Key>().unwrap_err();
        assert_eq!(error(""), KeyError::Empty);
        assert_eq!(error("Crtl-P"), KeyError::Modifier("Crtl".into()));
        assert_eq!(error("Entr"), KeyError::Unknown("Entr".into()));
        assert_eq!(error("F13"), KeyError::Unknown("F13".into()));
        assert_eq!(error("Shift-a"), KeyError::ShiftedChar('a'));
        assert!(error("Entr").to_string().contains("`Enter`"));
    }
}
