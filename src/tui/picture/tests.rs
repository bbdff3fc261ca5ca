//! A drawn screen as SVG and as text.

use super::*;
use crate::theme::Theme;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::{Color, Modifier, Style};

fn buffer() -> Buffer {
    let mut buffer = Buffer::empty(Rect::new(0, 0, 12, 2));
    buffer.set_string(0, 0, "<a&b> 日⣀▀─", Style::new().fg(Color::Rgb(1, 2, 3)));
    buffer.set_string(
        2,
        1,
        "two",
        Style::new().bg(Color::Green).add_modifier(Modifier::BOLD | Modifier::REVERSED),
    );
    buffer
}

#[test]
fn text_ends_with_the_size() {
    assert_eq!(text(&buffer()), "<a&b> 日⣀▀─\n  two\n== 12x2\n");
}

#[test]
fn styles_are_told_in_runs() {
    // The cell behind a wide character keeps none.
    assert_eq!(
        styles(&buffer()),
        "0:0-6 #010203 on Reset\n0:8-10 #010203 on Reset\n1:2-4 Reset on Green bold reversed\n"
    );
}

#[test]
fn a_picture_escapes_letters_and_draws_dots() {
    let svg = svg(&buffer(), &Theme::default());
    assert!(svg.starts_with("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 96 32\""));
    assert!(svg.contains("&lt;") && svg.contains("&amp;") && !svg.contains("<a&"));
    // Two dots of braille at the foot of the ninth cell, half a block in the tenth, a line after it.
    assert!(svg.contains("M66 14h0M70 14h0"), "{svg}");
    assert!(svg.contains("M72 0.00h4v8.00h-4z"), "{svg}");
    assert!(svg.contains("M84 8L80 8"), "{svg}");
    // Reversed: the ground becomes the ink of the letters.
    assert!(svg.contains("fill=\"#2f9e44\" font-weight=\"bold\">two</text>"), "{svg}");
}

#[test]
fn control_characters_do_not_reach_a_picture() {
    let mut buffer = Buffer::empty(Rect::new(0, 0, 3, 1));
    buffer[(0, 0)].set_symbol("\u{1b}");
    let svg = svg(&buffer, &Theme::default());
    assert!(svg.chars().all(|c| c == '\n' || !c.is_control()));
}
