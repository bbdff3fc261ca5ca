//! Pages as SVG: letters as outlines, so that every program draws the same, with the words over them unseen,
//! to be selected, searched and read aloud.

#[cfg(test)]
mod tests;

use std::collections::BTreeMap;
use std::fmt::Write;

use crate::draw::{Cap, Ink, Item, Mm, Outline, Page, Path, Spot, Step, Stroke, Text};
use crate::font::trace::{self, Curves};
use crate::font::{self, Face, Shaped};

/// A page as an SVG document with this title, true to size: one of its units is a millimetre.
#[must_use]
pub fn write(page: &Page, title: &str) -> String {
    let mut writer = Writer::default();
    writer.items(&page.items);
    let (width, height) = (number(page.size.width.0), number(page.size.height.0));
    let mut out = String::from("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
    line(
        &mut out,
        format_args!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" \
             viewBox=\"0 0 {width} {height}\" role=\"img\" stroke-linejoin=\"round\">"
        ),
    );
    line(&mut out, format_args!("<title>{}</title>", escaped(title)));
    writer.write_letters(&mut out);
    line(&mut out, format_args!("<rect width=\"{width}\" height=\"{height}\" fill=\"#fff\"/>"));
    out.push_str(&writer.body);
    out.push_str("</svg>\n");
    out
}

/// Writes a line. Into memory it cannot fail.
fn line(out: &mut String, words: std::fmt::Arguments<'_>) {
    let _ = out.write_fmt(words);
    out.push('\n');
}

#[derive(Default)]
struct Writer {
    body: String,
    /// The glyphs used: each is drawn once and then referred to.
    letters: BTreeMap<(Face, u16), ()>,
    clips: usize,
}

/// The units of a glyph's outline in one size of type: so large that whole numbers are fine enough.
const EM: f64 = 1000.0;

impl Writer {
    fn items(&mut self, items: &[Item]) {
        for item in items {
            match item {
                Item::Path(path) => self.path(path),
                Item::Text(text) => self.text(text),
                Item::Group(group) => {
                    self.clips += 1;
                    let clip = self.clips;
                    let shape = data(&group.clip, 3);
                    line(
                        &mut self.body,
                        format_args!(
                            "<clipPath id=\"c{clip}\"><path d=\"{shape}\"/></clipPath>\n\
                             <g clip-path=\"url(#c{clip})\">"
                        ),
                    );
                    self.items(&group.items);
                    self.body.push_str("</g>\n");
                }
            }
        }
    }

    fn path(&mut self, path: &Path) {
        if path.outline.is_empty() {
            return;
        }
        let fill = path.fill.map_or_else(|| "none".to_owned(), colour);
        let stroke = path.stroke.map(|stroke| stroked(&stroke)).unwrap_or_default();
        let shape = data(&path.outline, 3);
        line(&mut self.body, format_args!("<path fill=\"{fill}\"{stroke} d=\"{shape}\"/>"));
    }

    fn text(&mut self, text: &Text) {
        if text.words.trim().is_empty() {
            return;
        }
        let shaped = font::shape(text.face, &text.words);
        let width = Mm::from(text.size) * shaped.width;
        let turn = match number(text.turn).as_str() {
            "0" => String::new(),
            turn => format!(" rotate({turn})"),
        };
        let (x, y) = (number(text.at.x.0), number(text.at.y.0));
        line(&mut self.body, format_args!("<g transform=\"translate({x} {y}){turn}\">"));
        self.letters(text, &shaped, text.before(width));
        // Unseen; set to the length of the outlines in whatever type there is.
        line(
            &mut self.body,
            format_args!(
                "<text x=\"{}\" font-size=\"{}\" font-family=\"'{}', sans-serif\"{} text-anchor=\"middle\" \
                 textLength=\"{}\" lengthAdjust=\"spacingAndGlyphs\" fill=\"none\" \
                 xml:space=\"preserve\">{}</text>\n</g>",
                number((width / 2.0 - text.before(width)).0),
                number(Mm::from(text.size).0),
                Face::FAMILY,
                if text.face == Face::Bold { " font-weight=\"bold\"" } else { "" },
                number(width.0),
                escaped(&text.words)
            ),
        );
    }

    fn letters(&mut self, text: &Text, shaped: &Shaped, back: Mm) {
        let scale = Mm::from(text.size).0 / EM;
        let mut uses = String::new();
        for (glyph, right, up) in shaped.placed() {
            self.letters.insert((shaped.face, glyph.id), ());
            let _ = write!(
                uses,
                "<use href=\"#{}\" x=\"{}\" y=\"{}\"/>",
                letter((shaped.face, glyph.id)),
                number(right * EM - back.0 / scale),
                number(-up * EM)
            );
        }
        let halo = |uses: &str| {
            let width = number(text.halo.0 * 2.0 / scale);
            format!("<g stroke=\"#fff\" stroke-width=\"{width}\">{uses}</g>")
        };
        let under = if text.halo > Mm::ZERO { halo(&uses) } else { String::new() };
        line(
            &mut self.body,
            format_args!(
                "<g transform=\"scale({scale:.6})\" fill=\"{}\" aria-hidden=\"true\">{under}{uses}</g>",
                colour(text.ink)
            ),
        );
    }

    fn write_letters(&self, out: &mut String) {
        out.push_str("<defs>\n");
        for &(face, glyph) in self.letters.keys() {
            let place = |x: f64, y: f64| Spot::new(x * EM, -y * EM);
            let outline = trace::glyph(face, glyph, Curves::True, &place);
            let shape = data(&outline, 0);
            line(out, format_args!("<path id=\"{}\" d=\"{shape}\"/>", letter((face, glyph))));
        }
        out.push_str("</defs>\n");
    }
}

fn letter((face, glyph): (Face, u16)) -> String {
    match face {
        Face::Regular => format!("r{glyph}"),
        Face::Bold => format!("b{glyph}"),
    }
}

/// The steps of an outline, with so many decimals.
fn data(outline: &Outline, places: usize) -> String {
    let mut out = String::new();
    let at = |spot: Spot| format!("{} {}", decimals(spot.x.0, places), decimals(spot.y.0, places));
    for step in &outline.steps {
        let _ = match *step {
            Step::Move(to) => write!(out, "M{}", at(to)),
            Step::Line(to) => write!(out, "L{}", at(to)),
            Step::Curve(a, b, to) => write!(out, "C{} {} {}", at(a), at(b), at(to)),
            Step::Close => write!(out, "Z"),
        };
    }
    out
}

fn stroked(stroke: &Stroke) -> String {
    let mut out =
        format!(" stroke=\"{}\" stroke-width=\"{}\"", colour(stroke.ink), number(stroke.width.0));
    if let Some(dash) = stroke.dash {
        let _ = write!(out, " stroke-dasharray=\"{} {}\"", number(dash.on.0), number(dash.off.0));
    }
    if stroke.cap == Cap::Round {
        out.push_str(" stroke-linecap=\"round\"");
    }
    out
}

fn colour(ink: Ink) -> String {
    // Each part is 0 to 1.
    let [red, green, blue] = ink.rgb().map(|part| (part.clamp(0.0, 1.0) * 255.0).round() as u8);
    format!("#{red:02x}{green:02x}{blue:02x}")
}

/// A number to a thousandth: a micrometre, where it is a length.
fn number(value: f64) -> String {
    decimals(value, 3)
}

/// A number with so many decimals, without those that say nothing.
fn decimals(value: f64, places: usize) -> String {
    let mut text = format!("{value:.places$}");
    if text.contains('.') {
        text.truncate(text.trim_end_matches('0').trim_end_matches('.').len());
    }
    if text == "-0" { "0".to_owned() } else { text }
}

/// Words as XML holds them. What XML cannot hold at all is left out.
fn escaped(words: &str) -> String {
    let held = words
        .chars()
        .filter(|letter| !letter.is_control() && !matches!(letter, '\u{FFFE}' | '\u{FFFF}'));
    quick_xml::escape::escape(held.collect::<String>()).into_owned()
}
