//! What is on a page, as the operators of a PDF.

use pdf_writer::Content;
use pdf_writer::types::{LineCapStyle, LineJoinStyle};

use super::fonts::Fonts;
use super::words;
use crate::draw::{Cap, Ink, Item, Mm, Outline, Page, Path, Pt, Spot, Step, Stroke};

/// The operators that draw a page.
pub(super) fn of(page: &Page, fonts: &mut Fonts) -> Vec<u8> {
    let mut sheet = Sheet { content: Content::new(), fonts, height: page.size.height };
    sheet.content.set_line_join(LineJoinStyle::RoundJoin);
    sheet.items(&page.items);
    sheet.content.finish().into_vec()
}

/// A page while it is written.
pub(super) struct Sheet<'a> {
    pub(super) content: Content,
    pub(super) fonts: &'a mut Fonts,
    height: Mm,
}

/// A length in points, to a hundredth: 3.5 micrometres, which no printer shows.
fn points(length: Mm) -> f32 {
    hundredths(Pt::from(length).0)
}

pub(super) fn hundredths(value: f64) -> f32 {
    ((value * 100.0).round() / 100.0) as f32
}

impl Sheet<'_> {
    fn items(&mut self, items: &[Item]) {
        for item in items {
            match item {
                Item::Path(path) => self.path(path),
                Item::Text(text) => words::show(self, text),
                Item::Group(group) => {
                    self.content.save_state();
                    self.outline(&group.clip);
                    self.content.clip_nonzero().end_path();
                    self.items(&group.items);
                    self.content.restore_state();
                }
            }
        }
    }

    /// A place as a PDF counts it: from the lower left corner up.
    pub(super) fn place(&self, spot: Spot) -> (f32, f32) {
        (points(spot.x), points(self.height - spot.y))
    }

    pub(super) fn path(&mut self, path: &Path) {
        if path.outline.is_empty() {
            return;
        }
        if let Some(ink) = path.fill {
            self.fill_ink(ink);
        }
        if let Some(stroke) = path.stroke {
            self.stroke_style(&stroke);
        }
        self.outline(&path.outline);
        match (path.fill.is_some(), path.stroke.is_some()) {
            (true, true) => self.content.fill_nonzero_and_stroke(),
            (true, false) => self.content.fill_nonzero(),
            (false, true) => self.content.stroke(),
            (false, false) => self.content.end_path(),
        };
    }

    pub(super) fn fill_ink(&mut self, ink: Ink) {
        match ink {
            Ink::Grey(grey) => self.content.set_fill_gray(grey as f32),
            Ink::Colour(..) => {
                let [red, green, blue] = ink.rgb().map(|part| part as f32);
                self.content.set_fill_rgb(red, green, blue)
            }
        };
    }

    fn stroke_ink(&mut self, ink: Ink) {
        match ink {
            Ink::Grey(grey) => self.content.set_stroke_gray(grey as f32),
            Ink::Colour(..) => {
                let [red, green, blue] = ink.rgb().map(|part| part as f32);
                self.content.set_stroke_rgb(red, green, blue)
            }
        };
    }

    fn stroke_style(&mut self, stroke: &Stroke) {
        self.stroke_ink(stroke.ink);
        self.content.set_line_width(points(stroke.width));
        self.content.set_line_cap(match stroke.cap {
            Cap::Flat => LineCapStyle::ButtCap,
            Cap::Round => LineCapStyle::RoundCap,
        });
        let dash = stroke.dash.map(|dash| [points(dash.on), points(dash.off)]);
        self.content.set_dash_pattern(dash.into_iter().flatten(), 0.0);
    }

    fn outline(&mut self, outline: &Outline) {
        for step in &outline.steps {
            match *step {
                Step::Move(to) => {
                    let (x, y) = self.place(to);
                    self.content.move_to(x, y);
                }
                Step::Line(to) => {
                    let (x, y) = self.place(to);
                    self.content.line_to(x, y);
                }
                Step::Curve(a, b, to) => {
                    let [(x1, y1), (x2, y2), (x3, y3)] = [a, b, to].map(|spot| self.place(spot));
                    self.content.cubic_to(x1, y1, x2, y2, x3, y3);
                }
                Step::Close => {
                    self.content.close_path();
                }
            }
        }
    }
}
