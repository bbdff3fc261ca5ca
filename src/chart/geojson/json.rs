//! JSON as a stream: one byte after another through a buffer, with bounds on what has no end.
//!
//! A gigabyte without a quote or a comma would be one text or number; it ends in an error long
//! before. A gigabyte of short ones on one line is no matter.

use std::io::Read;
use std::ops::ControlFlow;

use super::number;
use super::{ImportError, Why};

/// The longest string or number, in bytes.
pub(super) const LONGEST_TOKEN: usize = 1 << 20;

/// The deepest nesting of lists and objects: a collection's feature's polygons come to seven.
pub(super) const DEEPEST: usize = 100;

/// How many bytes are read at once, and pass between two calls of the progress function.
const STRIDE: usize = 1 << 18;

/// Usual numbers are shorter, in bytes: while so many are in the buffer, one is read in place.
const USUAL_NUMBER: usize = 64;

pub(super) type Progress<'p> = dyn FnMut(u64) -> ControlFlow<()> + 'p;

/// See the module.
pub(super) struct Json<'p, R> {
    from: R,
    progress: &'p mut Progress<'p>,
    buffer: Vec<u8>,
    /// What is next, in the buffer.
    at: usize,
    ended: bool,
    /// Bytes before the buffer.
    passed: u64,
    /// At how many bytes progress is told next.
    tell_at: u64,
    line: usize,
    /// Where the line began, and how many of its bytes since then continue a character.
    line_start: u64,
    continuations: u64,
    depth: usize,
    scratch: Vec<u8>,
}

impl<'p, R: Read> Json<'p, R> {
    pub(super) fn new(from: R, progress: &'p mut Progress<'p>) -> Json<'p, R> {
        Json {
            from,
            progress,
            buffer: Vec::with_capacity(STRIDE),
            at: 0,
            ended: false,
            passed: 0,
            tell_at: STRIDE as u64,
            line: 1,
            line_start: 0,
            continuations: 0,
            depth: 0,
            scratch: Vec::new(),
        }
    }

    /// An error at what was read last.
    pub(super) fn fail(&self, why: Why) -> ImportError {
        let column = self.passed + self.at as u64 - self.line_start - self.continuations;
        ImportError { line: self.line, column: (column as usize).max(1), why }
    }

    pub(super) fn syntax(&self, what: &str) -> ImportError {
        self.fail(Why::Syntax(what.to_owned()))
    }

    /// Reads on, keeping what is not yet taken.
    fn refill(&mut self) -> Result<(), ImportError> {
        self.passed += self.at as u64;
        self.buffer.drain(..self.at);
        self.at = 0;
        while self.passed >= self.tell_at {
            self.tell_at += STRIDE as u64;
            if (self.progress)(self.passed).is_break() {
                return Err(self.fail(Why::Cancelled));
            }
        }
        let kept = self.buffer.len();
        self.buffer.resize(STRIDE, 0);
        let mut filled = kept;
        while filled < STRIDE && !self.ended {
            let Some(room) = self.buffer.get_mut(filled..) else { break };
            match self.from.read(room) {
                Ok(0) => self.ended = true,
                Ok(count) => filled += count,
                Err(error) if error.kind() == std::io::ErrorKind::Interrupted => {}
                Err(error) => return Err(self.fail(Why::Read(error))),
            }
        }
        self.buffer.truncate(filled);
        Ok(())
    }

    /// What is next, if anything.
    #[inline]
    fn peek(&mut self) -> Result<Option<u8>, ImportError> {
        if self.at == self.buffer.len() && !self.ended {
            self.refill()?;
        }
        Ok(self.buffer.get(self.at).copied())
    }

    /// What is next after white space.
    #[inline]
    pub(super) fn next(&mut self) -> Result<Option<u8>, ImportError> {
        loop {
            match self.peek()? {
                Some(b' ' | b'\t' | b'\r') => self.at += 1,
                Some(b'\n') => {
                    self.at += 1;
                    self.line += 1;
                    self.line_start = self.passed + self.at as u64;
                    self.continuations = 0;
                }
                other => return Ok(other),
            }
        }
    }

    /// What is next after white space; that there is nothing is an error.
    #[inline]
    pub(super) fn need(&mut self, within: &str) -> Result<u8, ImportError> {
        let next = self.next()?;
        next.ok_or_else(|| self.syntax(&format!("the text ends in the middle of {within}")))
    }

    /// Takes what [`next`](Json::next) showed.
    #[inline]
    pub(super) fn take(&mut self) {
        self.at += 1;
    }

    /// Takes the beginning of a list or an object.
    pub(super) fn enter(&mut self) -> Result<(), ImportError> {
        self.take();
        self.depth += 1;
        if self.depth > DEEPEST { Err(self.fail(Why::TooDeep)) } else { Ok(()) }
    }

    /// Whether a list or object goes on: takes its end, or the comma before the next element.
    #[inline]
    pub(super) fn goes_on(
        &mut self,
        end: u8,
        first: bool,
        within: &str,
    ) -> Result<bool, ImportError> {
        let next = self.need(within)?;
        if next == end {
            self.take();
            self.depth -= 1;
            return Ok(false);
        }
        match (first, next) {
            (true, _) => Ok(true),
            (false, b',') => {
                self.take();
                match self.need(within)? {
                    next if next == end => Err(self.syntax("nothing follows a comma")),
                    _ => Ok(true),
                }
            }
            (false, _) => {
                Err(self.syntax(&format!("a comma or the end of {within} should follow here")))
            }
        }
    }

    /// The key of the next member of an object, and takes the colon after it.
    pub(super) fn key(&mut self) -> Result<String, ImportError> {
        if self.need("an object")? != b'"' {
            return Err(self.syntax("the name of a member should follow here, in quotes"));
        }
        let key = self.string()?;
        if self.need("an object")? != b':' {
            return Err(self.syntax("a colon should follow the name of a member"));
        }
        self.take();
        Ok(key)
    }

    /// The string that is next.
    pub(super) fn string(&mut self) -> Result<String, ImportError> {
        let mut scratch = std::mem::take(&mut self.scratch);
        scratch.clear();
        let ended = self.text(&mut scratch);
        let text = ended.and_then(|()| match std::str::from_utf8(&scratch) {
            Ok(text) => Ok(text.to_owned()),
            Err(_) => Err(self.fail(Why::NotText)),
        });
        self.scratch = scratch;
        text
    }

    /// The bytes of the string that is next, its escapes resolved.
    fn text(&mut self, into: &mut Vec<u8>) -> Result<(), ImportError> {
        self.take();
        let mut length = 0;
        loop {
            let byte = self.peek()?;
            let byte =
                byte.ok_or_else(|| self.syntax("the text ends in the middle of a string"))?;
            self.at += 1;
            length += 1;
            match byte {
                _ if length > LONGEST_TOKEN => return Err(self.fail(Why::LongToken)),
                b'"' => return Ok(()),
                b'\\' => {
                    let character = self.escape()?;
                    into.extend(character.encode_utf8(&mut [0; 4]).bytes());
                }
                0..0x20 => return Err(self.syntax("a control character in a string")),
                _ => {
                    self.continuations += u64::from(byte & 0xC0 == 0x80);
                    into.push(byte);
                }
            }
        }
    }

    fn escape(&mut self) -> Result<char, ImportError> {
        let byte = self.peek()?.unwrap_or_default();
        self.at += usize::from(byte != 0);
        Ok(match byte {
            b'"' | b'\\' | b'/' => char::from(byte),
            b'b' => '\u{8}',
            b'f' => '\u{c}',
            b'n' => '\n',
            b'r' => '\r',
            b't' => '\t',
            b'u' => return self.escaped_unit(),
            _ => return Err(self.syntax("no such escape in a string")),
        })
    }

    /// A character by its number; half a pair of surrogates is no character.
    fn escaped_unit(&mut self) -> Result<char, ImportError> {
        let high = self.four_digits()?;
        if !(0xD800..0xDC00).contains(&high) {
            return Ok(char::from_u32(high).unwrap_or(char::REPLACEMENT_CHARACTER));
        }
        for wanted in [b'\\', b'u'] {
            if self.peek()? != Some(wanted) {
                return Ok(char::REPLACEMENT_CHARACTER);
            }
            self.at += 1;
        }
        let low = self.four_digits()?;
        let joined = 0x10000 + ((high - 0xD800) << 10) + low.wrapping_sub(0xDC00);
        let paired = (0xDC00..0xE000).contains(&low).then(|| char::from_u32(joined)).flatten();
        Ok(paired.unwrap_or(char::REPLACEMENT_CHARACTER))
    }

    fn four_digits(&mut self) -> Result<u32, ImportError> {
        let mut number = 0;
        for _ in 0..4 {
            let digit = self.peek()?.and_then(|byte| char::from(byte).to_digit(16));
            let digit = digit.ok_or_else(|| self.syntax("no such escape in a string"))?;
            self.at += 1;
            number = number * 16 + digit;
        }
        Ok(number)
    }

    /// The number that is next.
    #[inline]
    pub(super) fn number(&mut self) -> Result<f64, ImportError> {
        if self.buffer.len() - self.at < USUAL_NUMBER && !self.ended {
            self.refill()?;
        }
        let rest = self.buffer.get(self.at..).unwrap_or_default();
        match number::read(rest) {
            // It may go on where the buffer ends.
            Some((_, length)) if length == rest.len() && !self.ended => self.long_number(),
            Some((number, length)) => {
                self.at += length;
                if number.is_finite() { Ok(number) } else { Err(self.beyond_numbers()) }
            }
            None => self.long_number(),
        }
    }

    fn beyond_numbers(&self) -> ImportError {
        self.syntax("a number beyond all bounds")
    }

    /// A number however it lies in the buffer, or what is none.
    fn long_number(&mut self) -> Result<f64, ImportError> {
        let mut text = Vec::new();
        while let Some(byte) = self.peek()?.filter(|byte| number::is_part(*byte)) {
            self.at += 1;
            text.push(byte);
            if text.len() > LONGEST_TOKEN {
                return Err(self.fail(Why::LongToken));
            }
        }
        match number::read(&text) {
            Some((number, length)) if length == text.len() => {
                if number.is_finite() {
                    Ok(number)
                } else {
                    Err(self.beyond_numbers())
                }
            }
            _ if text.is_empty() => {
                self.take();
                Err(self.syntax("a value should follow here"))
            }
            _ => Err(self.syntax("not a number")),
        }
    }

    /// Takes a word such as `null`.
    pub(super) fn word(&mut self, word: &str) -> Result<(), ImportError> {
        for wanted in word.bytes() {
            if self.peek()? != Some(wanted) {
                self.take();
                return Err(self.syntax("a value should follow here"));
            }
            self.take();
        }
        Ok(())
    }

    /// Passes over any value.
    pub(super) fn skip(&mut self) -> Result<(), ImportError> {
        match self.need("a value")? {
            b'"' => {
                let mut scratch = std::mem::take(&mut self.scratch);
                scratch.clear();
                let outcome = self.text(&mut scratch);
                self.scratch = scratch;
                outcome
            }
            b'[' => {
                self.enter()?;
                let mut first = true;
                while self.goes_on(b']', first, "a list")? {
                    self.skip()?;
                    first = false;
                }
                Ok(())
            }
            b'{' => {
                self.enter()?;
                let mut first = true;
                while self.goes_on(b'}', first, "an object")? {
                    self.key()?;
                    self.skip()?;
                    first = false;
                }
                Ok(())
            }
            b't' => self.word("true"),
            b'f' => self.word("false"),
            b'n' => self.word("null"),
            _ => self.number().map(drop),
        }
    }

    /// Holds that nothing follows.
    pub(super) fn end(&mut self) -> Result<(), ImportError> {
        match self.next()? {
            None => Ok(()),
            Some(_) => {
                self.take();
                Err(self.syntax("something follows the end"))
            }
        }
    }
}
