//! A table of figures that can be copied into a spreadsheet or saved as CSV.

use super::super::browser;
use yew::prelude::*;

/// A table: its name, its heads, its rows. The first cell of a row names it; figures stand at the right.
#[derive(Clone, PartialEq, Properties)]
pub struct DataTable {
    /// What it is, and the file's name.
    pub caption: AttrValue,
    /// Heads of its columns.
    pub head: Vec<String>,
    /// Rows, each as long as the head.
    pub rows: Vec<Vec<String>>,
    /// From which column on cells are figures.
    pub figures_from: usize,
    /// Rows that stand out: totals.
    #[prop_or_default]
    pub strong: Vec<usize>,
}

/// The table with its ways out.
#[component]
pub fn Data(props: &DataTable) -> Html {
    let told = use_state(String::new);
    let copy = {
        let (props, told) = (props.clone(), told.setter());
        move |_| {
            let (text, told) = (separated(&props.head, &props.rows, '\t'), told.clone());
            yew::platform::spawn_local(async move {
                told.set(match browser::copy(&text).await {
                    Ok(()) => "copied".into(),
                    Err(reason) => format!("not copied: the browser refuses ({reason}); save it as CSV instead"),
                });
            });
        }
    };
    let save = {
        let (props, told) = (props.clone(), told.setter());
        move |_| {
            let name = format!("{}.csv", crate::ui::file::words(&props.caption).to_ascii_lowercase());
            let text = separated(&props.head, &props.rows, ',');
            told.set(match browser::download_as(&name, &text, "text/csv") {
                Ok(()) => format!("{name} saved"),
                Err(reason) => format!("{name} was not saved: the browser refuses ({reason})"),
            });
        }
    };
    let cell = |row: usize, at: usize, text: &String| {
        let strong = props.strong.contains(&row).then_some("strong");
        let label = props.head.get(at).cloned().unwrap_or_default();
        if at == 0 {
            html! { <th scope="row" class={classes!(strong)}>{ text }</th> }
        } else {
            let figure = (at >= props.figures_from).then_some("figure");
            html! { <td class={classes!(figure, strong)} data-label={label}>{ text }</td> }
        }
    };
    let row = |(at, cells): (usize, &Vec<String>)| html! { <tr>{ for cells.iter().enumerate().map(|(column, text)| cell(at, column, text)) }</tr> };
    let head = |(at, words): (usize, &String)| html! { <th scope="col" class={classes!((at >= props.figures_from).then_some("figure"))}>{ words }</th> };
    html! {
        <div class="data">
            <div class="scroll" tabindex="0" role="group" aria-label={props.caption.clone()}>
                <table class="figures">
                    <caption class="unseen">{ &props.caption }</caption>
                    <thead><tr>{ for props.head.iter().enumerate().map(head) }</tr></thead>
                    <tbody>{ for props.rows.iter().enumerate().map(row) }</tbody>
                </table>
            </div>
            <p class="data-tools no-print">
                <button type="button" onclick={copy} aria-label={format!("Copy the table: {}", props.caption)}>{ "Copy" }</button>
                <button type="button" onclick={save} aria-label={format!("Save the table as CSV: {}", props.caption)}>{ "CSV" }</button>
                <span role="status">{ (*told).clone() }</span>
            </p>
        </div>
    }
}

/// Rows of cells with a separator between them, as RFC 4180 has it; amounts lose their thousands and figures their typographic minus, so that a spreadsheet
/// reads them. A cell that a spreadsheet would take for a formula begins with an apostrophe.
fn separated(head: &[String], rows: &[Vec<String>], separator: char) -> String {
    let line = |cells: &Vec<String>| {
        cells
            .iter()
            .map(|cell| plain(cell, separator))
            .collect::<Vec<_>>()
            .join(&separator.to_string())
    };
    let mut text = line(&head.to_vec());
    for row in rows {
        text.push_str("\r\n");
        text.push_str(&line(row));
    }
    text.push_str("\r\n");
    text
}

fn plain(cell: &str, separator: char) -> String {
    let figures = cell.replace(',', "").replace('−', "-");
    if !figures.is_empty() && figures.parse::<f64>().is_ok() {
        return figures;
    }
    let words = if cell.starts_with(['=', '+', '-', '@', '\t']) {
        format!("'{cell}")
    } else {
        cell.to_owned()
    };
    if words.contains([separator, '"', '\n', '\r']) {
        format!("\"{}\"", words.replace('"', "\"\""))
    } else {
        words
    }
}

/// A list of sentences under a heading; nothing where there are none.
pub fn sentences(heading: &str, words: &[String]) -> Html {
    if words.is_empty() {
        return Html::default();
    }
    html! {
        <section class="sentences">
            if !heading.is_empty() { <h3>{ heading }</h3> }
            <ul>{ for words.iter().map(|text| html! { <li>{ text }</li> }) }</ul>
        </section>
    }
}

/// What has to be entered first, with where.
pub fn asked(heading: &str, words: &[String], address: &'static str, place: &'static str) -> Html {
    if words.is_empty() {
        return Html::default();
    }
    html! {
        <section class="messages asked-for" aria-label={heading.to_owned()}>
            <h3>{ heading }</h3>
            <ul>{ for words.iter().map(|text| html! { <li>{ text }</li> }) }</ul>
            <p class="no-print"><a href={address}>{ place }</a></p>
        </section>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_spreadsheet_reads_amounts_as_numbers_and_words_as_words() {
        let head = ["For".to_owned(), "USD".to_owned()];
        let rows = vec![
            vec!["Crane, \"S90\"".to_owned(), "4,668.75".to_owned()],
            vec!["credit".to_owned(), "−12.50".to_owned()],
            vec!["=1+1".to_owned(), "—".to_owned()],
        ];
        assert_eq!(
            separated(&head, &rows, ','),
            "For,USD\r\n\"Crane, \"\"S90\"\"\",4668.75\r\ncredit,-12.50\r\n'=1+1,—\r\n"
        );
        assert_eq!(separated(&head, &rows[1..2], '\t'), "For\tUSD\r\ncredit\t-12.50\r\n");
    }
}
