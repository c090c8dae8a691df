//! Templates: ours, and those of a folder of the user's that take their place.

use std::fmt;
use std::path::Path;
use std::str::FromStr;

/// The template of every paper that has none of its own.
const PAPER: &str = include_str!("../templates/paper.typ");

/// Largest template that is read. [bytes]
const LARGEST: u64 = 1 << 20;

/// Size of the sheet.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Size {
    /// ISO 216: 210 by 297 mm.
    #[default]
    A4,
    /// 8 1/2 by 11 in.
    Letter,
}

impl Size {
    /// The word for it.
    pub const fn name(self) -> &'static str {
        match self {
            Size::A4 => "a4",
            Size::Letter => "letter",
        }
    }
}

impl fmt::Display for Size {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

impl FromStr for Size {
    type Err = String;

    fn from_str(text: &str) -> Result<Size, String> {
        [Size::A4, Size::Letter]
            .into_iter()
            .find(|size| size.name() == text)
            .ok_or_else(|| format!("`{text}` is no size of paper: write `a4` or `letter`"))
    }
}

/// Where templates come from.
#[derive(Clone, Debug, Default)]
pub struct Templates {
    /// Those of the user: file name and text.
    own: Vec<(String, String)>,
}

/// A folder of templates that cannot be read.
#[derive(Debug, thiserror::Error)]
#[error("{file}: {why}")]
pub struct TemplatesError {
    /// The folder or file.
    pub file: String,
    /// Why.
    pub why: String,
}

impl Templates {
    /// The templates of a folder: `paper.typ` for all papers, or the name of a paper, such as `rig-fit.typ`, for that one.
    /// Other files named `.typ` may be imported by these.
    ///
    /// # Errors
    /// A folder or file that cannot be read, or a folder without any template.
    pub fn of_folder(folder: &Path) -> Result<Templates, TemplatesError> {
        let fault = |file: &Path, why: String| TemplatesError { file: file.display().to_string(), why };
        let listed = std::fs::read_dir(folder).map_err(|error| fault(folder, error.to_string()))?;
        let mut own = Vec::new();
        for file in listed {
            let path = file.map_err(|error| fault(folder, error.to_string()))?.path();
            let Some(name) = path.file_name().and_then(|name| name.to_str()).filter(|name| name.ends_with(".typ")) else {
                continue;
            };
            let length = std::fs::metadata(&path).map_err(|error| fault(&path, error.to_string()))?.len();
            if length > LARGEST {
                return Err(fault(&path, format!("{length} bytes: no template is that long")));
            }
            let text = std::fs::read_to_string(&path).map_err(|error| fault(&path, error.to_string()))?;
            own.push((name.to_owned(), text));
        }
        if own.is_empty() {
            return Err(fault(folder, "no template in it: a template is a file named `.typ`".to_owned()));
        }
        own.sort();
        Ok(Templates { own })
    }

    /// The template for a paper: the user's for that paper, the user's for all, ours.
    #[cfg_attr(not(feature = "pdf"), allow(dead_code, reason = "the typesetter reads it"))]
    pub(crate) fn main(&self, slug: &str) -> (String, &str) {
        let named = |name: &str| self.own.iter().find(|(file, _)| file == name).map(|(file, text)| (file.clone(), text.as_str()));
        named(&format!("{slug}.typ")).or_else(|| named("paper.typ")).unwrap_or_else(|| ("paper.typ".to_owned(), PAPER))
    }

    /// Every template there is, by file name: the user's, and ours where the user has none of that name.
    #[cfg_attr(not(feature = "pdf"), allow(dead_code, reason = "the typesetter reads it"))]
    pub(crate) fn all(&self) -> impl Iterator<Item = (&str, &str)> {
        let ours = (!self.own.iter().any(|(file, _)| file == "paper.typ")).then_some(("paper.typ", PAPER));
        self.own.iter().map(|(file, text)| (file.as_str(), text.as_str())).chain(ours)
    }
}
