//! Pages as pictures of pixels.

mod file;

#[cfg(test)]
mod tests;

use tiny_skia::{
    Color, FillRule, LineCap, LineJoin, Mask, Paint, PathBuilder, Pixmap, StrokeDash, Transform,
};

use crate::draw::{Cap, Group, Ink, Item, Mm, Outline, Page, Path, Pt, Step, Stroke, Text};
use crate::font;
use crate::font::trace::{self, Curves};

/// How fine a picture may be and how large, so that no slip of the pen asks for all memory.
const MOST_PIXELS: f64 = 100e6;

/// A picture that cannot be made.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum PictureError {
    /// It would have no pixels, or too many.
    #[error(
        "a picture of {width:.0} by {height:.0} pixels: it takes one at least and a hundred \
         million at most; take another number of dots per inch"
    )]
    Pixels {
        /// Across.
        width: f64,
        /// Down.
        height: f64,
    },
}

/// A page as a PNG file with so many dots per inch, which the file says too.
///
/// # Errors
/// [`PictureError::Pixels`] where that is no picture, or one of more than a hundred million pixels.
pub fn write(page: &Page, dots_per_inch: f64) -> Result<Vec<u8>, PictureError> {
    let scale = dots_per_inch / f64::from(72) * Pt::from(Mm(1.0)).0;
    let [width, height] = [page.size.width, page.size.height].map(|mm| (mm.0 * scale).round());
    let refused = PictureError::Pixels { width, height };
    if !(width >= 1.0 && height >= 1.0 && width * height <= MOST_PIXELS) {
        return Err(refused);
    }
    let mut pixels = Pixmap::new(width as u32, height as u32).ok_or(refused)?;
    pixels.fill(Color::WHITE);
    let mut painter = Painter { pixels, to: Transform::from_scale(scale as f32, scale as f32) };
    painter.items(&page.items, None);
    Ok(file::write(&painter.pixels, dots_per_inch))
}

struct Painter {
    pixels: Pixmap,
    to: Transform,
}

impl Painter {
    fn items(&mut self, items: &[Item], mask: Option<&Mask>) {
        for item in items {
            match item {
                Item::Path(path) => self.path(path, mask),
                Item::Text(text) => self.text(text, mask),
                Item::Group(group) => self.group(group, mask),
            }
        }
    }

    fn group(&mut self, group: &Group, mask: Option<&Mask>) {
        let Some(clip) = shape(&group.clip) else { return };
        let mut inner = match mask {
            Some(outer) => outer.clone(),
            None => {
                let Some(mut all) = Mask::new(self.pixels.width(), self.pixels.height()) else {
                    return;
                };
                all.invert();
                all
            }
        };
        inner.intersect_path(&clip, FillRule::Winding, true, self.to);
        self.items(&group.items, Some(&inner));
    }

    fn path(&mut self, path: &Path, mask: Option<&Mask>) {
        let Some(drawn) = shape(&path.outline) else { return };
        if let Some(ink) = path.fill {
            let rule = FillRule::Winding;
            self.pixels.fill_path(&drawn, &paint(ink), rule, self.to, mask);
        }
        if let Some(stroke) = &path.stroke {
            self.pixels.stroke_path(&drawn, &paint(stroke.ink), &pen(stroke), self.to, mask);
        }
    }

    fn text(&mut self, text: &Text, mask: Option<&Mask>) {
        let shaped = font::shape(text.face, &text.words);
        let outline = trace::line(text, &shaped, Curves::True);
        if text.halo > Mm::ZERO {
            let stroke = Some(Stroke::new(Ink::WHITE, text.halo * 2.0).round());
            self.path(&Path { outline: outline.clone(), fill: None, stroke }, mask);
        }
        self.path(&Path { outline, fill: Some(text.ink), stroke: None }, mask);
    }
}

fn paint(ink: Ink) -> Paint<'static> {
    let [red, green, blue] = ink.rgb().map(|part| (part.clamp(0.0, 1.0) * 255.0).round() as u8);
    let mut paint = Paint { anti_alias: true, ..Paint::default() };
    paint.set_color_rgba8(red, green, blue, 255);
    paint
}

fn pen(stroke: &Stroke) -> tiny_skia::Stroke {
    let dash =
        |dash: crate::draw::Dash| StrokeDash::new(vec![dash.on.0 as f32, dash.off.0 as f32], 0.0);
    tiny_skia::Stroke {
        width: stroke.width.0 as f32,
        line_cap: match stroke.cap {
            Cap::Flat => LineCap::Butt,
            Cap::Round => LineCap::Round,
        },
        line_join: LineJoin::Round,
        dash: stroke.dash.and_then(dash),
        ..tiny_skia::Stroke::default()
    }
}

/// An outline in millimetres; nothing of one that draws nothing.
fn shape(outline: &Outline) -> Option<tiny_skia::Path> {
    let mut path = PathBuilder::new();
    for step in &outline.steps {
        match *step {
            Step::Move(to) => path.move_to(to.x.0 as f32, to.y.0 as f32),
            Step::Line(to) => path.line_to(to.x.0 as f32, to.y.0 as f32),
            Step::Curve(a, b, to) => path.cubic_to(
                a.x.0 as f32,
                a.y.0 as f32,
                b.x.0 as f32,
                b.y.0 as f32,
                to.x.0 as f32,
                to.y.0 as f32,
            ),
            Step::Close => path.close(),
        }
    }
    path.finish()
}
