//! The page: starts the app in the browser.
fn main() {
    setday::ui::start();
}
