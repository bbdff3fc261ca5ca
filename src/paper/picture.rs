//! Pictures: a part of a chart on a page of its own, for a slide or a handout.

use chart::{Extent, OffGrid};

use crate::draw::{Area, Mm, Page, Pt, Size, Spot, Text};
use crate::font::Face;
use crate::map::{self, Chartlet, LEAST, Part, Scale};
use crate::set;
use crate::words;

/// The page of a picture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Sheet {
    /// As large as all that is to be shown takes at a scale.
    At(Scale),
    /// Of this size, at the largest round scale at which all has room.
    On(Size),
    /// Of this size at a scale, with what of the chart has room about the middle.
    About(Size, Scale),
}

/// A picture that cannot be drawn.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum PictureError {
    /// The grid does not reach there.
    #[error(transparent)]
    OffGrid(#[from] OffGrid),
    /// The page would be too large.
    #[error(
        "at {scale} the picture is {width:.0} by {height:.0} mm: the most is {} mm; take a smaller \
         scale or a smaller part", LONGEST.0
    )]
    TooLarge {
        /// The scale.
        scale: Scale,
        /// Its width.
        width: f64,
        /// Its height.
        height: f64,
    },
    /// The page is too large.
    #[error("a page of {width:.0} by {height:.0} mm is too large: the most is {} mm", LONGEST.0)]
    TooLong {
        /// Its width.
        width: f64,
        /// Its height.
        height: f64,
    },
    /// The page has no room for a chart.
    #[error(
        "a page of {width:.0} by {height:.0} mm has no room for a chart: the least is {} by {} mm",
        SMALLEST.width.0, SMALLEST.height.0
    )]
    TooSmall {
        /// Its width.
        width: f64,
        /// Its height.
        height: f64,
    },
}

/// The longest side of a page.
const LONGEST: Mm = Mm(1_500.0);
/// The smallest page.
const SMALLEST: Size = Size::new(85.0, 70.0);
/// Around what is on the page.
const MARGIN: Mm = Mm(5.0);
/// The title.
const TITLE: Pt = Pt(11.0);

/// A part of a chart on a page of its own, with its title, what the chart is made from and the cautions.
///
/// # Errors
/// [`PictureError`] where the grid does not reach, or there is no such page.
pub fn picture(
    chartlet: &Chartlet<'_>,
    extent: Extent,
    sheet: Sheet,
) -> Result<Page, PictureError> {
    let size = match sheet {
        Sheet::On(size) | Sheet::About(size, _) => size,
        Sheet::At(scale) => size_at(chartlet, extent, scale)?,
    };
    let (width, height) = (size.width.0, size.height.0);
    let fits = width >= SMALLEST.width.0 && height >= SMALLEST.height.0;
    if !fits {
        return Err(PictureError::TooSmall { width, height });
    }
    if !(width <= LONGEST.0 && height <= LONGEST.0) {
        return Err(PictureError::TooLong { width, height });
    }
    let all = Area::of(size).inset(MARGIN);
    let title = title(chartlet, all.width);
    let foot = foot(chartlet, all.width);
    let foot_height = set::leading(LEAST) * foot.len() as f64;
    let area = all.between(all.top + title_height(&title), all.bottom() - foot_height - Mm(1.0));
    let part = match sheet {
        Sheet::On(_) => Part::All(extent),
        Sheet::At(scale) | Sheet::About(_, scale) => Part::At(extent, scale),
    };
    let mut page = Page::new(size);
    page.items = chartlet.draw(area, part)?.items;
    let (lines, size) = title;
    for (line, words) in lines.into_iter().enumerate() {
        let y = all.top + Mm::from(size) * 0.8 + set::leading(size) * line as f64;
        page.items.push(Text::new(words, Spot { x: all.left, y }, size).bold().into());
    }
    for (line, words) in foot.into_iter().enumerate() {
        let y = all.bottom() - foot_height + set::leading(LEAST) * (line as f64 + 0.8);
        page.items.push(Text::new(words, Spot { x: all.left, y }, LEAST).into());
    }
    Ok(page)
}

/// The title in lines, with the size of its type.
fn title(chartlet: &Chartlet<'_>, width: Mm) -> (Vec<String>, Pt) {
    let route = chartlet.route.map(|route| route.title.as_str()).filter(|title| !title.is_empty());
    let chart = chartlet.chart.title.as_str();
    let words = route.map_or_else(|| chart.to_owned(), |route| format!("{route} · {chart}"));
    let size = set::shrunk(Face::Bold, &words, TITLE, width);
    (set::lines(Face::Bold, &words, size, width), size)
}

/// How high the lines of a title are.
fn title_height((lines, size): &(Vec<String>, Pt)) -> Mm {
    set::leading(*size) * lines.len() as f64
}

/// The lines under the chart.
fn foot(chartlet: &Chartlet<'_>, width: Mm) -> Vec<String> {
    let said = words::cautions(chartlet.chart);
    set::lines(Face::Regular, &said.join(" "), LEAST, width)
}

/// The page that holds all of an extent at a scale.
fn size_at(chartlet: &Chartlet<'_>, extent: Extent, scale: Scale) -> Result<Size, PictureError> {
    let any = Area::of(SMALLEST);
    let frame = map::Frame::new(&chartlet.chart.grid, extent.center(), any, scale)?;
    let around = map::around();
    let width = frame.of_grid_metres(extent.width()) + around.width + MARGIN * 2.0;
    let width = width.max(SMALLEST.width);
    let foot = foot(chartlet, width - MARGIN * 2.0).len() as f64;
    let head = title_height(&title(chartlet, width - MARGIN * 2.0));
    let set = head + set::leading(LEAST) * foot + Mm(1.0) + MARGIN * 2.0;
    let height = frame.of_grid_metres(extent.height()) + around.height + set;
    let height = height.max(SMALLEST.height);
    if width > LONGEST || height > LONGEST {
        return Err(PictureError::TooLarge { scale, width: width.0, height: height.0 });
    }
    Ok(Size { width, height })
}

#[cfg(test)]
mod tests {
    use chart::coast::Coast;

    use super::*;

    #[test]
    fn a_page_is_as_large_as_its_scale_takes() {
        let chart = chart::practice().unwrap();
        let coast = Coast::of(&chart);
        let chartlet = Chartlet::of(&chart, &coast, None);
        let scale = Scale::new(100_000).unwrap();
        let page = picture(&chartlet, chart.extent, Sheet::At(scale)).unwrap();
        // 30 by 22 km at 1:100,000 are 300 by 220 mm; the grid's scale is within 0.1% of one.
        let around = map::around();
        let chart_width = page.size.width - around.width - MARGIN * 2.0;
        assert!((chart_width - Mm(300.0)).abs() < Mm(0.3), "{chart_width:?}");
        assert!(page.size.height > Mm(240.0) && page.size.height < Mm(270.0));
        let words: Vec<&str> = page.texts().iter().map(|text| text.words.as_str()).collect();
        let all = words.join(" ");
        assert!(all.contains("no such place") && all.contains("Not for navigation"), "{all}");
        for item in &page.items {
            assert!(item.area().is_none_or(|area| Area::of(page.size).holds(&area)));
        }
    }

    #[test]
    fn pages_are_bounded() {
        let chart = chart::practice().unwrap();
        let coast = Coast::of(&chart);
        let chartlet = Chartlet::of(&chart, &coast, None);
        let large = picture(&chartlet, chart.extent, Sheet::At(Scale::LARGEST));
        assert!(matches!(large, Err(PictureError::TooLarge { .. })));
        let small = picture(&chartlet, chart.extent, Sheet::On(Size::new(30.0, 30.0)));
        assert!(matches!(small, Err(PictureError::TooSmall { .. })));
    }
}
