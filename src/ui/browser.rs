//! The few things the page asks of the browser: the address, listeners, the store, files in and out.

use wasm_bindgen::prelude::*;
use web_sys::{Event, HtmlElement, Window};

/// The window of the page.
pub fn window() -> Window {
    web_sys::window().expect("a page has a window")
}

fn document() -> web_sys::Document {
    window().document().expect("a window has a document")
}

/// The address from `#` on.
pub fn address_hash() -> String {
    window().location().hash().unwrap_or_default()
}

/// Goes to another view.
pub fn go_to(hash: &str) {
    // a hash never reloads the page, so this cannot fail for an address of ours
    let _ = window().location().set_hash(hash);
}

/// Adds a listener to the window and answers with what takes it away again.
pub fn on_window(kind: &'static str, listener: impl Fn(Event) + 'static) -> Box<dyn FnOnce()> {
    let closure = Closure::<dyn Fn(Event)>::new(listener);
    window()
        .add_event_listener_with_callback(kind, closure.as_ref().unchecked_ref())
        .expect("a window takes listeners");
    Box::new(move || {
        let _ = window().remove_event_listener_with_callback(kind, closure.as_ref().unchecked_ref());
    })
}

/// The browser is not to scroll by itself when people go back.
pub fn keep_scroll_ourselves() {
    if let Ok(history) = window().history() {
        let _ = history.set_scroll_restoration(web_sys::ScrollRestoration::Manual);
    }
}

/// How far the page is scrolled, in CSS pixels.
pub fn scrolled_to() -> f64 {
    window().scroll_y().unwrap_or(0.0)
}

/// Scrolls the page.
pub fn scroll_to(y: f64) {
    window().scroll_to_with_x_and_y(0.0, y);
}

/// Moves the focus to an element, for those who hear the page.
pub fn focus_without_scrolling(id: &str) {
    let options = web_sys::FocusOptions::new();
    options.set_prevent_scroll(true);
    if let Some(element) = document()
        .get_element_by_id(id)
        .and_then(|e| e.dyn_into::<HtmlElement>().ok())
    {
        let _ = element.focus_with_options(&options);
    }
}

/// The title in the browser's tab.
pub fn set_title(text: &str) {
    document().set_title(text);
}

/// Opens the print dialog.
pub fn print() {
    // refused only where a page may not print, which the browser says itself
    let _ = window().print();
}

/// What the browser says went wrong.
pub fn reason(error: &JsValue) -> String {
    error
        .dyn_ref::<js_sys::Error>()
        .map_or_else(|| format!("{error:?}"), |error| String::from(error.message()))
}

/// Reads from the browser's store.
pub fn read_store(key: &str) -> Result<Option<String>, String> {
    let store = window().local_storage().map_err(|error| reason(&error))?;
    let store = store.ok_or("this browser has no store")?;
    store.get_item(key).map_err(|error| reason(&error))
}

/// Writes to the browser's store.
pub fn write_store(key: &str, text: &str) -> Result<(), String> {
    let store = window().local_storage().map_err(|error| reason(&error))?;
    let store = store.ok_or("this browser has no store")?;
    store.set_item(key, text).map_err(|error| reason(&error))
}

/// Takes something out of the browser's store.
pub fn remove_store(key: &str) {
    if let Ok(Some(store)) = window().local_storage() {
        // what is not there need not be taken out
        let _ = store.remove_item(key);
    }
}

/// All that stands in the browser's store under keys that begin so: the rest of the key, and the text.
pub fn stored_under(prefix: &str) -> Vec<(String, String)> {
    let Ok(Some(store)) = window().local_storage() else {
        return Vec::new();
    };
    let keys = (0..store.length().unwrap_or(0)).filter_map(|at| store.key(at).ok().flatten());
    let found = keys.filter_map(|key| {
        let text = store.get_item(&key).ok().flatten()?;
        Some((key.strip_prefix(prefix)?.to_owned(), text))
    });
    found.collect()
}

/// Reads from the store of this tab, which lasts as long as the tab.
pub fn read_tab_store(key: &str) -> Option<String> {
    window().session_storage().ok().flatten()?.get_item(key).ok().flatten()
}

/// Writes to the store of this tab.
pub fn write_tab_store(key: &str, text: &str) -> Result<(), String> {
    let store = window().session_storage().map_err(|error| reason(&error))?;
    let store = store.ok_or("this browser has no store")?;
    store.set_item(key, text).map_err(|error| reason(&error))
}

/// Whether the browser has promised not to clear what this page keeps. None: it does not say.
pub async fn is_persisted() -> Option<bool> {
    let promise = window().navigator().storage().persisted().ok()?;
    wasm_bindgen_futures::JsFuture::from(promise).await.ok()?.as_bool()
}

/// Asks the browser for that promise; [`is_persisted`] tells what came of it.
pub async fn ask_to_persist() {
    if let Ok(promise) = window().navigator().storage().persist() {
        let _ = wasm_bindgen_futures::JsFuture::from(promise).await;
    }
}

/// What the windows of this browser say to each other.
pub struct Channel {
    port: web_sys::BroadcastChannel,
    _listener: Closure<dyn Fn(web_sys::MessageEvent)>,
}

impl Channel {
    /// Listens. None where the browser does not let windows talk.
    pub fn open(name: &str, hear: fn(&str)) -> Option<Self> {
        let port = web_sys::BroadcastChannel::new(name).ok()?;
        let listener = Closure::<dyn Fn(web_sys::MessageEvent)>::new(move |event: web_sys::MessageEvent| {
            if let Some(said) = event.data().as_string() {
                hear(&said);
            }
        });
        port.set_onmessage(Some(listener.as_ref().unchecked_ref()));
        Some(Self {
            port,
            _listener: listener,
        })
    }

    /// Says something to all others.
    pub fn say(&self, text: &str) {
        // refused only by a channel that is closed, which is dropped then
        let _ = self.port.post_message(&text.into());
    }
}

impl Drop for Channel {
    fn drop(&mut self) {
        self.port.close();
    }
}

/// Lets the page draw and hear what was pressed before it goes on.
pub async fn breathe() {
    let turn = js_sys::Promise::new(&mut |go_on, _| {
        // without a timer it goes on at once
        if window().set_timeout_with_callback(&go_on).is_err() {
            let _ = go_on.call0(&JsValue::NULL);
        }
    });
    let _ = wasm_bindgen_futures::JsFuture::from(turn).await;
}

/// Milliseconds since 1970 UTC.
pub fn now_ms() -> f64 {
    js_sys::Date::now()
}

/// A name that nothing else on this device has: the time and chance.
pub fn new_name() -> String {
    format!(
        "{:x}-{:08x}",
        now_ms() as u64,
        (js_sys::Math::random() * 4_294_967_296.0) as u64
    )
}

/// "2027-05-03 14:32:05" where the browser is.
pub fn local_time(ms: f64) -> String {
    let date = js_sys::Date::new(&ms.into());
    format!(
        "{}-{:02}-{:02} {:02}:{:02}:{:02}",
        date.get_full_year(),
        date.get_month() + 1,
        date.get_date(),
        date.get_hours(),
        date.get_minutes(),
        date.get_seconds()
    )
}

/// Hands a text to the browser as a file to save.
pub fn download(name: &str, text: &str) -> Result<(), String> {
    download_as(name, text, "application/json")
}

/// The same, of another kind.
pub fn download_as(name: &str, text: &str, kind: &str) -> Result<(), String> {
    let address = address_of(text, kind)?;
    save_from(&address, name)?;
    yew::platform::spawn_local(async move {
        // the browser has taken the file by then
        yew::platform::time::sleep(core::time::Duration::from_secs(10)).await;
        let _ = web_sys::Url::revoke_object_url(&address);
    });
    Ok(())
}

/// An address for a text, until it is revoked.
fn address_of(text: &str, kind: &str) -> Result<String, String> {
    let parts = js_sys::Array::of1(&text.into());
    let options = web_sys::BlobPropertyBag::new();
    options.set_type(kind);
    let blob = web_sys::Blob::new_with_str_sequence_and_options(&parts, &options).map_err(|error| reason(&error))?;
    web_sys::Url::create_object_url_with_blob(&blob).map_err(|error| reason(&error))
}

fn save_from(address: &str, name: &str) -> Result<(), String> {
    let link = document().create_element("a").map_err(|error| reason(&error))?;
    link.set_attribute("href", address).map_err(|error| reason(&error))?;
    link.set_attribute("download", name).map_err(|error| reason(&error))?;
    link.unchecked_ref::<HtmlElement>().click();
    Ok(())
}

/// Puts a text on the clipboard.
pub async fn copy(text: &str) -> Result<(), String> {
    let done = wasm_bindgen_futures::JsFuture::from(window().navigator().clipboard().write_text(text)).await;
    done.map(drop).map_err(|error| reason(&error))
}

/// Hands an SVG to the browser as a picture of so many dots to save.
pub async fn download_picture(name: &str, svg: &str, [wide, high]: [f64; 2]) -> Result<(), String> {
    let plain = |error: JsValue| reason(&error);
    let address = address_of(svg, "image/svg+xml")?;
    let picture = web_sys::HtmlImageElement::new().map_err(plain)?;
    picture.set_src(&address);
    let drawn = wasm_bindgen_futures::JsFuture::from(picture.decode()).await;
    // an address that is none any more is let go of already
    let _ = web_sys::Url::revoke_object_url(&address);
    drawn.map_err(plain)?;
    let canvas = document().create_element("canvas").map_err(plain)?;
    let canvas: web_sys::HtmlCanvasElement = canvas.unchecked_into();
    canvas.set_width(wide as u32);
    canvas.set_height(high as u32);
    let context = canvas
        .get_context("2d")
        .map_err(plain)?
        .ok_or("it gives no room to draw in")?;
    let context: web_sys::CanvasRenderingContext2d = context.unchecked_into();
    context.set_fill_style_str("#fff");
    context.fill_rect(0.0, 0.0, wide, high);
    context
        .draw_image_with_html_image_element_and_dw_and_dh(&picture, 0.0, 0.0, wide, high)
        .map_err(plain)?;
    let dots = canvas.to_data_url_with_type("image/png").map_err(plain)?;
    save_from(&dots, name)
}

/// Tells something that has no other place.
pub fn alert(text: &str) {
    // refused only where a page may show no dialog
    let _ = window().alert_with_message(text);
}

/// Puts a mark on the whole page for its style sheet, or takes it away.
pub fn mark_page(mark: &str, on: bool) {
    if let Some(root) = document().document_element() {
        // refused only for marks with a space in them
        let _ = root.class_list().toggle_with_force(mark, on);
    }
}

/// Whether the page is in front.
pub fn is_in_sight() -> bool {
    !document().hidden()
}

/// Adds a listener that may keep the browser from doing what it does by itself, and answers with what takes it away again.
pub fn on_actively(
    element: &web_sys::EventTarget,
    kind: &'static str,
    listener: impl Fn(Event) + 'static,
) -> Box<dyn FnOnce()> {
    let closure = Closure::<dyn Fn(Event)>::new(listener);
    let options = web_sys::AddEventListenerOptions::new();
    options.set_passive(false);
    element
        .add_event_listener_with_callback_and_add_event_listener_options(
            kind,
            closure.as_ref().unchecked_ref(),
            &options,
        )
        .expect("an element takes listeners");
    let element = element.clone();
    Box::new(move || {
        let _ = element.remove_event_listener_with_callback(kind, closure.as_ref().unchecked_ref());
    })
}

/// The id of this build of the page.
pub fn build() -> String {
    let meta = document().query_selector("meta[name=build]").ok().flatten();
    meta.and_then(|meta| meta.get_attribute("content")).unwrap_or_default()
}

/// The text of a file.
pub async fn text_of(file: web_sys::File) -> Result<String, String> {
    wasm_bindgen_futures::JsFuture::from(file.text())
        .await
        .map_err(|error| reason(&error))?
        .as_string()
        .ok_or_else(|| "the file gave no text".to_owned())
}

/// Whether the focus is in something that takes text.
pub fn is_typing() -> bool {
    let focused = document().active_element().map(|element| element.tag_name());
    matches!(focused.as_deref(), Some("INPUT" | "TEXTAREA" | "SELECT"))
}

/// Whether something that is dragged over the page is a file.
pub fn carries_files(event: &Event) -> bool {
    let transfer = event
        .dyn_ref::<web_sys::DragEvent>()
        .and_then(web_sys::DragEvent::data_transfer);
    transfer.is_some_and(|transfer| transfer.types().includes(&"Files".into(), 0))
}

/// The first file that was dropped.
pub fn dropped_file(event: &Event) -> Option<web_sys::File> {
    event.dyn_ref::<web_sys::DragEvent>()?.data_transfer()?.files()?.get(0)
}
