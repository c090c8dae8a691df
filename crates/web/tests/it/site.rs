//! A server of a copy of the examples, for tests.

use axum::body::Body;
use http_body_util::BodyExt;
use hyper::{Request, StatusCode};
use rigwright_web::{Server, router};
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};
use tower::ServiceExt;

pub(crate) struct Site {
    pub(crate) folder: PathBuf,
    router: axum::Router,
}

pub(crate) struct Answer {
    pub(crate) status: StatusCode,
    pub(crate) headers: hyper::HeaderMap,
    pub(crate) text: String,
}

pub(crate) fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).expect("the folder can be made");
    for entry in fs::read_dir(from).expect("the examples are there") {
        let entry = entry.expect("the examples can be listed");
        let target = to.join(entry.file_name());
        if entry.path().is_dir() { copy(&entry.path(), &target) } else { drop(fs::copy(entry.path(), target)) }
    }
}

impl Site {
    pub(crate) fn new() -> Site {
        Site::with(None, "127.0.0.1:7117")
    }

    pub(crate) fn with(phrase: Option<&str>, address: &str) -> Site {
        static NEXT: AtomicUsize = AtomicUsize::new(0);
        let number = NEXT.fetch_add(1, Ordering::Relaxed);
        let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("site-{}-{number}", std::process::id()));
        copy(&Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples"), &folder);
        let clock = || "2026-11-25T06:00:00Z".parse().expect("a moment");
        let server = Server::new(&folder, None, address.parse().expect("an address"), phrase, clock).expect("a server");
        Site { folder, router: router(Arc::new(server)) }
    }

    pub(crate) async fn send(&self, request: Request<Body>) -> Answer {
        let response = self.router.clone().oneshot(request).await.expect("a router always answers");
        let (parts, body) = response.into_parts();
        let bytes = body.collect().await.expect("a whole answer").to_bytes();
        Answer { status: parts.status, headers: parts.headers, text: String::from_utf8_lossy(&bytes).into_owned() }
    }

    /// The routes, for a connection of one's own.
    pub(crate) fn router(&self) -> axum::Router {
        self.router.clone()
    }

    pub(crate) async fn get(&self, url: &str) -> Answer {
        self.send(Request::get(url).header("host", "127.0.0.1:7117").body(Body::empty()).expect("a request")).await
    }

    /// Sends a form as one of our own pages would, with its secret.
    pub(crate) async fn post(&self, path: &str, pairs: &[(&str, &str)]) -> Answer {
        let page = self.get("/new").await;
        let secret = field(&page.text, "form_secret");
        let mut body = form_urlencoded::Serializer::new(String::new());
        body.append_pair("form_secret", &secret);
        body.extend_pairs(pairs);
        let request = Request::post(path)
            .header("host", "127.0.0.1:7117")
            .header("origin", "http://127.0.0.1:7117")
            .header("content-type", "application/x-www-form-urlencoded");
        self.send(request.body(Body::from(body.finish())).expect("a request")).await
    }

    pub(crate) fn file(&self, name: &str) -> String {
        fs::read_to_string(self.folder.join(name)).expect("the file is there")
    }
}

impl Drop for Site {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.folder);
    }
}

/// The value of a hidden field.
pub(crate) fn field(page: &str, name: &str) -> String {
    let at = page.find(&format!("name=\"{name}\" value=\"")).unwrap_or_else(|| panic!("no field {name} in {page}"));
    page[at..].split('"').nth(3).expect("a value").to_owned()
}
