//! The set of papers of each demo well, from its review to PDF: in pages a second, beside the yardstick of one empty page from
//! the same typesetter. `cargo bench -p rigwright-press --features pdf`.

use divan::counter::ItemsCount;
use divan::{Bencher, black_box};
use rigwright_margins::Review;
use rigwright_papers::Subject;
use rigwright_papers::paper::{Desk, Paper, PaperKind, fingerprint, set};
use rigwright_press::{Size, Templates, pages, pdf, pdfs};
use rigwright_units::System;
use rigwright_wellfile::{Disk, read};

fn main() {
    divan::main();
}

const WELLS: [&str; 3] = ["ostrick", "tolvane", "quellmere"];

/// Works at a desk with a demo well and its review.
fn at_desk<T>(name: &str, work: impl FnOnce(&Desk) -> T) -> T {
    let file = format!("{}/../../examples/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    let loaded = match read(&file, None, &Disk) {
        Ok(loaded) => loaded,
        Err(findings) => panic!("{findings:?}"),
    };
    let review = Review::new(&loaded.fit);
    let subject = Subject {
        file: name,
        rig_file: None,
        fit: &loaded.fit,
        provenance: &loaded.provenance,
        cautions: &loaded.cautions,
        review: &review,
        as_of: jiff::Timestamp::UNIX_EPOCH,
        units: System::Field,
    };
    work(&Desk { subject: &subject, beside: None, fingerprint: &fingerprint(&loaded.sources), version: "0.0.0", section: None })
}

/// A paper as PDF.
fn set_paper(paper: &Paper) -> usize {
    match pdf(black_box(paper), Size::A4, &Templates::default()) {
        Ok(bytes) => bytes.len(),
        Err(error) => panic!("{error}"),
    }
}

/// How many sheets a set is.
fn sheets(papers: &[(String, Paper)]) -> usize {
    let of = |paper: &Paper| match pages(paper, Size::A4, &Templates::default()) {
        Ok(pages) => pages,
        Err(error) => panic!("{error}"),
    };
    papers.iter().map(|(_, paper)| of(paper)).sum()
}

/// The yardstick: a sheet with head and foot and nothing between them.
#[divan::bench]
fn an_empty_page(bencher: Bencher) {
    at_desk("ostrick", |desk| {
        let Some(kind) = PaperKind::find("handover") else { panic!("it is a paper") };
        let empty = Paper { parts: Vec::new(), ..kind.make(desk) };
        bencher.counter(ItemsCount::new(1u32)).bench_local(|| {
            // The typesetter remembers what it has set: a second time would cost nothing.
            typst::comemo::evict(0);
            set_paper(&empty)
        });
    });
}

/// What the typesetter takes for the whole set, the papers made already.
#[divan::bench(args = WELLS, sample_count = 10)]
fn set_to_pdf(bencher: Bencher, name: &str) {
    at_desk(name, |desk| {
        let papers = set(desk);
        let sheets = sheets(&papers);
        bencher.counter(ItemsCount::new(sheets)).bench_local(|| {
            typst::comemo::evict(0);
            papers.iter().map(|(_, paper)| set_paper(paper)).sum::<usize>()
        });
    });
}

/// What `papers all` takes after the start: reading, review, papers, PDF.
#[divan::bench(args = WELLS, sample_count = 10)]
fn files_to_pdf(bencher: Bencher, name: &str) {
    let sheets = at_desk(name, |desk| sheets(&set(desk)));
    bencher.counter(ItemsCount::new(sheets)).bench_local(|| {
        typst::comemo::evict(0);
        at_desk(name, |desk| {
            let papers = set(desk);
            let sheets: Vec<&Paper> = papers.iter().map(|(_, paper)| paper).collect();
            let mut bytes = 0;
            let all = pdfs(&sheets, Size::A4, &Templates::default(), |_, made| made.map(|made| bytes += made.len()));
            if let Err(error) = all {
                panic!("{error}")
            }
            bytes
        })
    });
}
