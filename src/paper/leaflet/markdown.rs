//! A document as Markdown.

use super::Leaflet;
use super::blocks::{Block, Field};
use crate::marked::{escaped, whole_table};

impl Leaflet<'_> {
    /// The document as Markdown with tables (GitHub's dialect).
    #[must_use]
    pub fn markdown(&self) -> String {
        let mut out = vec![format!("# {}", escaped(&self.title)), String::new()];
        if !self.subtitle.is_empty() {
            out.extend([escaped(&self.subtitle), String::new()]);
        }
        for block in &self.blocks {
            self::block(&mut out, block);
        }
        for words in &self.foot {
            out.extend([escaped(words), String::new()]);
        }
        let mut text = out.join("\n").trim_end().to_owned();
        text.push('\n');
        text
    }
}

fn block(out: &mut Vec<String>, block: &Block<'_>) {
    match block {
        Block::Heading(words) => out.push(format!("## {}", escaped(words))),
        Block::NewPage => return,
        Block::Together(blocks) => {
            blocks.iter().for_each(|inner| self::block(out, inner));
            return;
        }
        Block::Paragraph(words) => out.push(escaped(words)),
        Block::Strong(words) => out.push(format!("**{}**", escaped(words))),
        Block::List(points) => {
            out.extend(points.iter().map(|words| format!("- {}", escaped(words))));
        }
        Block::Steps(steps) => {
            let step =
                |(index, words): (usize, &String)| format!("{}. {}", index + 1, escaped(words));
            out.extend(steps.iter().enumerate().map(step));
        }
        Block::Boxes(ticks) => out.extend(ticks.iter().map(|tick| {
            format!("- [{}] {}", if tick.ticked { "x" } else { " " }, escaped(&tick.words))
        })),
        Block::Fields(fields) => out.extend(fields.iter().map(field)),
        Block::Rules(count) => {
            out.extend((0..*count).flat_map(|_| [pen(40), String::new()]));
        }
        Block::Table(table) => {
            let heads: Vec<&str> = table.columns.iter().map(|column| &column.head[..]).collect();
            whole_table(out, &heads, &table.rows);
        }
        Block::Figure(figure) if figure.in_words.is_empty() => return,
        Block::Figure(figure) => out.push(format!("*{}*", escaped(&figure.in_words))),
    }
    out.push(String::new());
}

fn field(field: &Field) -> String {
    match field.written.as_str() {
        "" => format!("- {}: {}", escaped(&field.label), pen(20)),
        written => format!("- {}: **{}**", escaped(&field.label), escaped(written)),
    }
}

/// A line for a pen.
fn pen(columns: usize) -> String {
    r"\_".repeat(columns)
}
