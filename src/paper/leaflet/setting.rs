//! A document set on pages.

use chart::OffGrid;

use super::blocks::{Block, Field, Table, Tick};
use super::table::{self, Drawn};
use super::{Figure, High, Leaflet, Paper};
use crate::draw::{Area, Item, Mm, Outline, Page, Pt, Size, Spot, Stroke};
use crate::font::{self, Face};
use crate::map::LEAST;
use crate::set::flow::{self, Piece, Placed};
use crate::set::{self, Foot, leading};

/// Something on a page, drawn with its upper left corner in that of the page.
#[derive(Debug, Clone)]
enum What<'a> {
    /// Anything.
    Items(Vec<Item>),
    /// A heading, which what follows stays with.
    Heading(Vec<Item>),
    /// The head of a table.
    Head(Drawn),
    /// A row of it: on a further page the head comes before it again.
    Row(Vec<Item>, Drawn),
    /// A drawing.
    Figure(&'a Figure<'a>),
}

/// Between two blocks.
const GAP: Mm = Mm(1.6);
/// From one line for a pen to the next.
const PEN: Mm = Mm(8.0);
/// Between fields beside each other.
const BETWEEN: Mm = Mm(3.0);
/// How far the words of a point stand from its sign, as a part of the size of type.
const INDENT: f64 = 1.6;

/// The foot of a document's pages.
pub(super) fn foot(leaflet: &Leaflet<'_>, paper: &Paper) -> Foot {
    let all = Area::of(paper.sheet).inset(paper.margin());
    Foot::new(&leaflet.foot, all).numbered(&leaflet.title)
}

/// How much of the first page is left when all that comes before a new page is on it, figures that take the rest at no
/// height; negative where it has no room.
pub(super) fn rest(leaflet: &Leaflet<'_>, paper: &Paper) -> Mm {
    let setting = Setting { size: paper.type_size, area: foot(leaflet, paper).above() };
    let first = leaflet.blocks.split(|block| matches!(block, Block::NewPage)).next();
    let blocks = first.unwrap_or_default().iter().flat_map(|block| setting.block(block));
    let pieces: Pieces<'_> = setting.title(leaflet).into_iter().chain(blocks).collect();
    let height = |piece: &Piece<What<'_>>| match piece.what {
        What::Figure(Figure { high: High::Rest(_), .. }) => Mm::ZERO,
        _ => piece.height,
    };
    setting.area.height - Mm(0.01) - pieces.iter().map(height).sum::<Mm>()
}

pub(super) fn pages(leaflet: &Leaflet<'_>, paper: &Paper) -> Result<Vec<Page>, OffGrid> {
    let foot = foot(leaflet, paper);
    let laid = laid(leaflet, paper, foot.above());
    let count = laid.len();
    let mut pages = Vec::with_capacity(count);
    for (index, placed) in laid.into_iter().enumerate() {
        let mut page = Page::new(paper.sheet);
        for placed in placed {
            page.items.extend(draw(placed)?);
        }
        page.items.extend(foot.items(index + 1, count));
        pages.push(page);
    }
    Ok(pages)
}

fn draw(placed: Placed<What<'_>>) -> Result<Vec<Item>, OffGrid> {
    let Placed { what, area } = placed;
    let items = match what {
        What::Items(items) | What::Heading(items) | What::Row(items, _) => items,
        What::Head(head) => head.items,
        What::Figure(figure) => return figure.draw(area),
    };
    Ok(items.into_iter().map(|item| item.moved(area.left, area.top)).collect())
}

/// Pieces on pages: in the size of type that the paper names, or in a smaller one if that takes no more pages than there
/// should be.
fn laid<'a>(leaflet: &'a Leaflet<'a>, paper: &Paper, area: Area) -> Vec<Vec<Placed<What<'a>>>> {
    let lay = |size| Setting { size, area }.pages(leaflet);
    let whole = lay(paper.type_size);
    let Some(most) = paper.pages.filter(|most| whole.len() > *most) else { return whole };
    let mut size = paper.type_size;
    while size > LEAST {
        size = (size - Pt(0.5)).max(LEAST);
        let smaller = lay(size);
        if smaller.len() <= most {
            return smaller;
        }
    }
    whole
}

/// One size of type in one area.
struct Setting {
    size: Pt,
    area: Area,
}

type Pieces<'a> = Vec<Piece<What<'a>>>;

impl Setting {
    fn pages<'a>(&self, leaflet: &'a Leaflet<'a>) -> Vec<Vec<Placed<What<'a>>>> {
        let mut pages = Vec::new();
        let parts = leaflet.blocks.split(|block| matches!(block, Block::NewPage));
        for (index, part) in parts.enumerate() {
            let mut pieces = if index == 0 { self.title(leaflet) } else { Vec::new() };
            pieces.extend(part.iter().flat_map(|block| self.block(block)));
            if pieces.is_empty() {
                continue;
            }
            keep_headings(&mut pieces);
            self.fill(&mut pieces);
            pages.extend(flow::pages(&pieces, self.area, |piece| match &piece.what {
                What::Row(_, head) => Some(self.head(head.clone())),
                _ => None,
            }));
        }
        pages
    }

    /// Gives the figures that take the rest of a page their height.
    fn fill(&self, pieces: &mut [Piece<What<'_>>]) {
        for index in 0..pieces.len() {
            let What::Figure(Figure { high: High::Rest(least), .. }) = pieces[index].what else {
                continue;
            };
            let sum = |pieces: &[Piece<What<'_>>]| pieces.iter().map(|piece| piece.height).sum();
            let (all, before): (Mm, Mm) = (sum(pieces), sum(&pieces[..index]));
            let piece = &mut pieces[index];
            let room = self.area.height - Mm(0.01);
            let with_all = room - (all - piece.height);
            let with_before = room - before - piece.keep;
            if let Some(height) = [with_all, with_before].into_iter().find(|it| it >= least) {
                piece.height = height;
            }
        }
    }

    fn title<'a>(&self, leaflet: &Leaflet<'_>) -> Pieces<'a> {
        let mut pieces = self.words(Face::Bold, &leaflet.title, self.size + Pt(3.0), Mm::ZERO);
        pieces.extend(self.words(Face::Regular, &leaflet.subtitle, self.size, Mm::ZERO));
        if !pieces.is_empty() {
            pieces.push(gap(GAP));
        }
        pieces
    }

    fn block<'a>(&self, block: &'a Block<'a>) -> Pieces<'a> {
        let plain = |face, words: &str| self.words(face, words, self.size, Mm::ZERO);
        let mut pieces = match block {
            Block::Heading(words) => return self.heading(words),
            Block::NewPage => return Vec::new(),
            Block::Together(blocks) => return self.together(blocks),
            Block::Paragraph(words) => plain(Face::Regular, words),
            Block::Strong(words) => {
                let mut pieces = plain(Face::Bold, words);
                pieces.push(gap(GAP / 4.0));
                return pieces;
            }
            Block::List(points) => points.iter().flat_map(|words| self.point("•", words)).collect(),
            Block::Steps(steps) => {
                let step = |(index, words): (usize, &String)| {
                    self.point(&format!("{}.", index + 1), words)
                };
                steps.iter().enumerate().flat_map(step).collect()
            }
            Block::Boxes(ticks) => ticks.iter().flat_map(|tick| self.tick(tick)).collect(),
            Block::Fields(fields) => self.fields(fields),
            Block::Rules(count) => {
                (0..*count).map(|_| self.pen_line(Vec::new(), Mm::ZERO)).collect()
            }
            Block::Table(table) => self.table(table),
            Block::Figure(figure) => self.figure(figure),
        };
        pieces.push(gap(GAP));
        pieces
    }

    /// Words in lines, so far in from the left.
    fn words<'a>(&self, face: Face, words: &str, size: Pt, left: Mm) -> Pieces<'a> {
        let lines = set::lines(face, words, size, self.area.width - left);
        let line =
            |words: String| piece(What::Items(vec![text(&words, face, size, left)]), leading(size));
        lines.into_iter().map(line).collect()
    }

    fn heading<'a>(&self, words: &str) -> Pieces<'a> {
        let size = self.size + Pt(1.5);
        let lines = set::lines(Face::Bold, words, size, self.area.width);
        let mut pieces = vec![gap(Mm(1.0))];
        pieces.extend(lines.into_iter().map(|words| {
            let items = vec![text(&words, Face::Bold, size, Mm::ZERO)];
            piece(What::Heading(items), leading(size) + Mm(0.4))
        }));
        pieces
    }

    fn together<'a>(&self, blocks: &'a [Block<'a>]) -> Pieces<'a> {
        let mut pieces: Pieces<'a> = blocks.iter().flat_map(|block| self.block(block)).collect();
        let all: Mm = pieces.iter().map(|piece| piece.height).sum();
        if let Some(first) = pieces.first_mut().filter(|_| all <= self.area.height) {
            first.keep = all - first.height;
        }
        pieces
    }

    /// A point after its sign.
    fn point<'a>(&self, sign: &str, words: &str) -> Pieces<'a> {
        let least = Mm::from(self.size) * INDENT;
        let left = least.max(font::width(Face::Regular, &format!("{sign} "), self.size));
        let mut pieces = self.words(Face::Regular, words, self.size, left);
        if let Some(Piece { what: What::Items(items), .. }) = pieces.first_mut() {
            items.push(text(sign, Face::Regular, self.size, Mm::ZERO));
        }
        pieces
    }

    /// A point after its box.
    fn tick<'a>(&self, tick: &Tick) -> Pieces<'a> {
        let side = Mm::from(self.size) * 0.82;
        let left = Mm::from(self.size) * INDENT;
        let mut pieces = self.words(Face::Regular, &tick.words, self.size, left);
        let Some(Piece { what: What::Items(items), height, .. }) = pieces.first_mut() else {
            return pieces;
        };
        let corner = Spot { x: Mm(0.2), y: (*height - side) / 2.0 };
        let area = Area::at(corner, Size { width: side, height: side });
        items.push(Item::stroke(Outline::rectangle(area), Stroke::black(0.25)));
        if tick.ticked {
            let (left, right) = (area.left, area.right());
            let ends =
                [(left, area.top, right, area.bottom()), (left, area.bottom(), right, area.top)];
            for (x, y, to_x, to_y) in ends {
                let line = [Spot { x, y }, Spot { x: to_x, y: to_y }];
                items.push(Item::stroke(Outline::line(line), Stroke::black(0.25)));
            }
        }
        pieces
    }

    /// Fields beside each other where all have room there, else one under the other.
    fn fields<'a>(&self, fields: &[Field]) -> Pieces<'a> {
        let count = fields.len().max(1) as f64;
        let each = (self.area.width - BETWEEN * (count - 1.0)) / count;
        let width = |face, words: &str| font::width(face, words, self.size);
        let has_room = |field: &Field| {
            let label = width(Face::Regular, &field.label);
            match field.written.as_str() {
                "" => label <= each * 0.6,
                written => label + Mm(1.5) + width(Face::Bold, written) <= each,
            }
        };
        if fields.len() > 1 && !fields.iter().all(has_room) {
            return fields
                .iter()
                .flat_map(|field| self.fields(std::slice::from_ref(field)))
                .collect();
        }
        if let [field] = fields
            && !has_room(field)
        {
            return self.long_field(field);
        }
        vec![self.field_line(fields, each)]
    }

    /// A line of fields that have room in it.
    fn field_line<'a>(&self, fields: &[Field], each: Mm) -> Piece<What<'a>> {
        let blank = fields.iter().any(|field| field.written.is_empty());
        let height = if blank { PEN } else { leading(self.size) };
        // Words stand at the foot of the line, on the rule.
        let down = height - leading(self.size);
        let mut items = Vec::new();
        for (index, field) in fields.iter().enumerate() {
            let left = (each + BETWEEN) * index as f64;
            let after = left + font::width(Face::Regular, &field.label, self.size) + Mm(1.5);
            items.push(text(&field.label, Face::Regular, self.size, left).moved(Mm::ZERO, down));
            if field.written.is_empty() {
                items.push(rule(after, left + each, height - Mm(0.6)));
            } else {
                let written = text(&field.written, Face::Bold, self.size, after);
                items.push(written.moved(Mm::ZERO, down));
            }
        }
        piece(What::Items(items), height)
    }

    /// A field that takes more than a line.
    fn long_field<'a>(&self, field: &Field) -> Pieces<'a> {
        let mut pieces = self.words(Face::Regular, &field.label, self.size, Mm::ZERO);
        if field.written.is_empty() {
            pieces.push(self.pen_line(Vec::new(), Mm::ZERO));
        } else {
            let left = Mm::from(self.size) * INDENT;
            pieces.extend(self.words(Face::Bold, &field.written, self.size, left));
        }
        pieces
    }

    fn pen_line<'a>(&self, mut items: Vec<Item>, from: Mm) -> Piece<What<'a>> {
        items.push(rule(from, self.area.width, PEN - Mm(0.6)));
        piece(What::Items(items), PEN)
    }

    fn table<'a>(&self, table: &Table) -> Pieces<'a> {
        let Some(laid) = table::lay(table, self.size, self.area.width, self.area.height) else {
            let rows = table.rows.iter().map(|row| table.in_a_row(row));
            return rows.flat_map(|words| self.point("•", &words)).collect();
        };
        let mut pieces = Vec::new();
        let first = laid.rows.first().map_or(Mm::ZERO, |row| row.height);
        if laid.head.height > Mm::ZERO {
            pieces.push(Piece { keep: first, ..self.head(laid.head.clone()) });
        }
        for Drawn { items, height } in laid.rows {
            pieces.push(piece(What::Row(items, laid.head.clone()), height));
        }
        pieces
    }

    fn head<'a>(&self, head: Drawn) -> Piece<What<'a>> {
        let height = head.height;
        piece(What::Head(head), height)
    }

    fn figure<'a>(&self, figure: &'a Figure<'a>) -> Pieces<'a> {
        let caption = self.words(Face::Regular, &figure.caption, self.size, Mm::ZERO);
        let under: Mm = caption.iter().map(|line| line.height).sum();
        // Sums of lengths that fill a page exactly may miss it by their last bits.
        let most = self.area.height - under - Mm(0.01);
        let height = match figure.high {
            High::Of(height) => height.min(most),
            High::Page => most,
            // Settled when all that shares its page is known.
            High::Rest(least) => least.min(most),
        };
        let drawing = Piece { what: What::Figure(figure), height, keep: under };
        std::iter::once(drawing).chain(caption).collect()
    }
}

fn piece(what: What<'_>, height: Mm) -> Piece<What<'_>> {
    Piece { what, height, keep: Mm::ZERO }
}

fn gap<'a>(height: Mm) -> Piece<What<'a>> {
    piece(What::Items(Vec::new()), height)
}

/// A line for a pen.
fn rule(from: Mm, to: Mm, y: Mm) -> Item {
    Item::stroke(Outline::line([from, to].map(|x| Spot { x, y })), Stroke::black(0.15))
}

/// A line of words whose top lies at the top of the page.
fn text(words: &str, face: Face, size: Pt, left: Mm) -> Item {
    set::line(words, face, size, Spot { x: left, y: Mm::ZERO })
}

/// Keeps headings with what comes after them.
fn keep_headings(pieces: &mut [Piece<What<'_>>]) {
    for index in (0..pieces.len().saturating_sub(1)).rev() {
        let next = pieces[index + 1].height + pieces[index + 1].keep;
        if matches!(pieces[index].what, What::Heading(_)) {
            pieces[index].keep = next;
        }
    }
}
