//! Pages put where they are wanted: one PDF, or a picture for each page.

use std::num::NonZeroUsize;

use anyhow::{Context, bail};
use clap::Args;
use paper::draw::Page;
use paper::leaflet::Leaflet;
use paper::{pdf, png, svg};

use super::{Format, Output};
use crate::bar;
use crate::{Exit, Io};

/// Where pages go, and which of them.
#[derive(Debug, Clone, Args)]
pub(crate) struct PagesOut {
    #[command(flatten)]
    pub(crate) output: Output,
    /// This page alone
    #[arg(long, value_name = "N")]
    page: Option<NonZeroUsize>,
    /// How many dots an inch of a PNG has
    #[arg(long, value_name = "DOTS", default_value = "200", value_parser = dots)]
    dpi: f64,
}

fn dots(text: &str) -> Result<f64, String> {
    let dots = text.parse().ok().filter(|dots| (10.0..=2400.0).contains(dots));
    dots.ok_or_else(|| "write a number of dots from 10 to 2400, such as 300".to_owned())
}

impl PagesOut {
    /// Puts pages there: a PDF holds them all, of SVG and PNG each has its own file.
    pub(crate) fn write(
        &self,
        pages: &[Page],
        title: &str,
        format: Format,
        io: &mut Io<'_>,
    ) -> anyhow::Result<Exit> {
        let pages = self.chosen(pages)?;
        if format == Format::Pdf {
            let set = pdf::write(pages, &pdf::About { title, made: None });
            if set.missing > 0 {
                let _ = writeln!(io.errors, "{}", boxes(set.missing));
            }
            return self.output.write(&set.bytes, io);
        }
        if pages.len() > 1 && self.output.is_standard() {
            bail!(
                "there are {} pages, and standard output takes one file: a PDF holds them all, --page N is one of them",
                pages.len()
            );
        }
        let mut files = bar::while_long(io.terminal, "drawing", || {
            pages
                .iter()
                .map(|page| self.picture(page, title, format))
                .collect::<anyhow::Result<Vec<_>>>()
        })?;
        match files.len() {
            1 => self.output.write(&files.swap_remove(0), io),
            _ => self.output.write_several(files, io),
        }
    }

    /// Puts a document there: as text or Markdown as it stands, in other formats as the pages that it is set on.
    pub(crate) fn write_document(
        &self,
        document: &Leaflet<'_>,
        set: impl FnOnce() -> anyhow::Result<Vec<Page>>,
        format: Format,
        io: &mut Io<'_>,
    ) -> anyhow::Result<Exit> {
        match format {
            Format::Text => self.output.write(document.text().as_bytes(), io),
            Format::Markdown => self.output.write(document.markdown().as_bytes(), io),
            _ => {
                let pages = bar::while_long(io.terminal, "drawing", set)?;
                self.write(&pages, &document.title, format, io)
            }
        }
    }

    /// The same for a second file beside the first, `NAME-answers.pdf`.
    ///
    /// # Errors
    /// On standard output, which takes one file.
    pub(crate) fn beside(&self, behind: &str) -> anyhow::Result<PagesOut> {
        Ok(PagesOut { output: self.output.beside(behind)?, ..self.clone() })
    }

    fn chosen<'a>(&self, pages: &'a [Page]) -> anyhow::Result<&'a [Page]> {
        let Some(page) = self.page else { return Ok(pages) };
        let page = pages.get(page.get() - 1).map(std::slice::from_ref);
        page.with_context(|| match pages.len() {
            1 => "--page: there is one page".to_owned(),
            many => format!("--page: there are {many} pages"),
        })
    }

    fn picture(&self, page: &Page, title: &str, format: Format) -> anyhow::Result<Vec<u8>> {
        Ok(match format {
            Format::Png => png::write(page, self.dpi)?,
            _ => svg::write(page, title).into_bytes(),
        })
    }
}

/// That the type lacks letters.
fn boxes(missing: usize) -> String {
    match missing {
        1 => "1 letter is not in the type and stands as a box".to_owned(),
        many => format!("{many} letters are not in the type and stand as boxes"),
    }
}
