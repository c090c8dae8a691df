//! The world that the typesetter sees: one template, one document of data, figures, fonts; no disk, no clock.

use crate::{PressError, Size, TemplateFault, Templates};
use rigwright_papers::figure::svg_on_paper;
use rigwright_papers::paper::{Paper, Part};
use std::collections::BTreeMap;
use std::sync::OnceLock;
use typst::diag::{FileError, FileResult, SourceDiagnostic};
use typst::foundations::{Bytes, Datetime, Duration, Smart};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World, WorldExt};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards};

/// Open Sans (Apache License 2.0): open forms and figures of one width, legible in a photocopy.
const FONTS: [&[u8]; 3] = [
    include_bytes!("../fonts/OpenSans-Regular.ttf"),
    include_bytes!("../fonts/OpenSans-Semibold.ttf"),
    include_bytes!("../fonts/OpenSans-Italic.ttf"),
];

/// Sizes of text for a paper that must fit one page, the first that fits; the smallest is still read at arm's length.
const TEXT_SIZES: [f64; 6] = [9.0, 8.5, 8.0, 7.5, 7.0, 6.5];
/// Sheets of the usual size beyond which the smallest, with half its area, does not make one of them either.
const HOPELESS: usize = 3;
/// Settings for which the typesetter remembers what it worked out; without an end a page that is served for days would fill up.
const REMEMBERED: usize = 8;

pub(crate) fn pdf(paper: &Paper, size: Size, templates: &Templates) -> Result<Vec<u8>, PressError> {
    let (document, world) = set(paper, size, templates)?;
    let standards = PdfStandards::new(&[PdfStandard::Ua_1]).unwrap_or_default();
    let options = |standards: PdfStandards| PdfOptions {
        ident: Smart::Custom(format!("{} {} {}", paper.slug, paper.head.fingerprint, paper.head.as_of)),
        creator: Smart::Custom(Some(format!("Rigwright {}", paper.head.version))),
        standards,
        ..PdfOptions::default()
    };
    // A user's template may leave out what the standard of accessible papers asks for: then the paper is tagged all the same.
    typst_pdf::pdf(&document, &options(standards))
        .or_else(|_| typst_pdf::pdf(&document, &options(PdfStandards::default())))
        .map_err(|faults| faulty(&faults, &world))
}

pub(crate) fn pages(paper: &Paper, size: Size, templates: &Templates) -> Result<usize, PressError> {
    set(paper, size, templates).map(|(document, _)| document.pages().len())
}

/// Sets a paper, smaller until it fits where it must.
fn set(paper: &Paper, size: Size, templates: &Templates) -> Result<(PagedDocument, Desk), PressError> {
    let sizes = if paper.one_page { &TEXT_SIZES[..] } else { &TEXT_SIZES[..1] };
    let mut first = None;
    for text_size in sizes {
        let world = Desk::new(paper, size, *text_size, templates)?;
        let set = typst::compile::<PagedDocument>(&world);
        let document = set.output.map_err(|faults| faulty(&faults, &world))?;
        typst::comemo::evict(REMEMBERED);
        if document.pages().len() == 1 || !paper.one_page {
            return Ok((document, world));
        }
        let sheets = document.pages().len();
        first.get_or_insert((document, world));
        if sheets > HOPELESS {
            break;
        }
    }
    // It fits at no size that can be read: then it is set at the usual size on as many pages as it takes.
    first.ok_or(PressError::NoTypesetter)
}

fn faulty(faults: &[SourceDiagnostic], world: &Desk) -> PressError {
    let fault = |fault: &SourceDiagnostic| {
        let source = fault.span.id().and_then(|id| world.source(id).ok());
        let at = world.range(fault.span).map_or(0, |range| range.start);
        let place = source.as_ref().and_then(|source| source.lines().byte_to_line_column(at));
        let file =
            source.as_ref().map_or_else(|| "template".to_owned(), |source| source.id().vpath().get_without_slash().to_owned());
        TemplateFault {
            file,
            line: place.map_or(0, |place| place.0 + 1),
            column: place.map_or(0, |place| place.1 + 1),
            message: fault.message.to_string(),
            hints: fault.hints.iter().map(|hint| hint.v.to_string()).collect(),
        }
    };
    PressError::Template(faults.iter().map(fault).collect())
}

/// Everything that the typesetter may read.
struct Desk {
    main: FileId,
    texts: BTreeMap<String, Source>,
    files: BTreeMap<String, Bytes>,
}

impl Desk {
    fn new(paper: &Paper, size: Size, text_size: f64, templates: &Templates) -> Result<Desk, PressError> {
        let (name, template) = templates.main(paper.slug);
        let main = id(&name)?;
        let mut texts = BTreeMap::from([(name.clone(), Source::new(main, template.to_owned()))]);
        for (file, text) in templates.all().filter(|(file, _)| *file != name) {
            texts.insert(file.to_owned(), Source::new(id(file)?, text.to_owned()));
        }
        let mut files = BTreeMap::new();
        let mut data = serde_json::to_value(paper).unwrap_or_default();
        data["size"] = size.name().into();
        data["text_size"] = text_size.into();
        let mut figures = 0;
        for (index, part) in paper.parts.iter().enumerate() {
            if let Part::Figure { figure, .. } = part {
                figures += 1;
                let file = format!("figure-{figures}.svg");
                data["parts"][index]["file"] = format!("/{file}").into();
                files.insert(file, Bytes::from_string(svg_on_paper(figure)));
            }
        }
        files.insert("paper.json".to_owned(), Bytes::from_string(data.to_string()));
        Ok(Desk { main, texts, files })
    }
}

/// The id of a file of this world; a template whose name the typesetter cannot take is told like any fault of it.
fn id(name: &str) -> Result<FileId, PressError> {
    let path = VirtualPath::new(name).map_err(|error| {
        let message = format!("a template cannot have this name: {error}");
        PressError::Template(vec![TemplateFault { file: name.to_owned(), line: 0, column: 0, message, hints: Vec::new() }])
    })?;
    Ok(RootedPath::new(VirtualRoot::Project, path).intern())
}

fn library() -> &'static LazyHash<Library> {
    static LIBRARY: OnceLock<LazyHash<Library>> = OnceLock::new();
    LIBRARY.get_or_init(|| LazyHash::new(Library::default()))
}

fn fonts() -> &'static (Vec<Font>, LazyHash<FontBook>) {
    static LOADED: OnceLock<(Vec<Font>, LazyHash<FontBook>)> = OnceLock::new();
    LOADED.get_or_init(|| {
        let fonts: Vec<Font> = FONTS.iter().flat_map(|font| Font::iter(Bytes::new(*font))).collect();
        let book = FontBook::from_fonts(&fonts);
        (fonts, LazyHash::new(book))
    })
}

impl World for Desk {
    fn library(&self) -> &LazyHash<Library> {
        library()
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &fonts().1
    }

    fn main(&self) -> FileId {
        self.main
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        let name = id.vpath().get_without_slash();
        self.texts.get(name).cloned().ok_or_else(|| FileError::NotFound(name.into()))
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        let name = id.vpath().get_without_slash();
        let text = || self.texts.get(name).map(|source| Bytes::from_string(source.text().to_owned()));
        self.files.get(name).cloned().or_else(text).ok_or_else(|| FileError::NotFound(name.into()))
    }

    fn font(&self, index: usize) -> Option<Font> {
        fonts().0.get(index).cloned()
    }

    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        // The moment of a paper stands in its data; a clock here would change its bytes.
        None
    }
}
