// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/recordhtml.h"

#include "domain/say.h"
#include "record/carplan.h"
#include "record/firstpage.h"
#include "record/frontwords.h"
#include "record/htmlphotos.h"
#include "record/htmltext.h"
#include "record/itemsvg.h"
#include "record/recordlayout.h"
#include "record/recordparts.h"
#include "record/recordstamp.h"
#include "record/recordwords.h"

#include <QFile>

#include <algorithm>

namespace ramplight {

using namespace paper;

namespace {

constexpr double planWidth = 86 * mm;
constexpr double planHeight = 82 * mm;
constexpr double pageCodeSide = 25 * mm;

QByteArray resource(const char* name)
{
    QFile file(QStringLiteral(":/ramplight/record/%1").arg(QLatin1String(name)));
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

QString typeface(const char* file, int weight)
{
    return QStringLiteral("@font-face{font-family:\"Record\";font-weight:%1;"
                          "src:url(data:font/otf;base64,%2) format(\"opentype\")}\n")
        .arg(weight)
        .arg(QString::fromLatin1(resource(file).toBase64()));
}

/// Line ends in what was typed stay line ends.
QString lined(const QString& words)
{
    return htmlText(words).replace(QLatin1Char('\n'), QStringLiteral("<br>"));
}

QString classOf(Type type, Tone tone)
{
    QStringList names;
    if (type == Type::Bold || type == Type::SmallBold)
        names.append(QStringLiteral("b"));
    if (type == Type::Small || type == Type::SmallBold)
        names.append(QStringLiteral("s"));
    if (tone == Tone::Muted)
        names.append(QStringLiteral("m"));
    return names.join(QLatin1Char(' '));
}

QString percent(double part)
{
    return QStringLiteral("%1%").arg(QString::number(100 * part / column, 'f', 2));
}

/// Writes what a flow holds, in its order.
class FlowWriter
{
public:
    FlowWriter(const PhotoVault& photos, qsizetype mostBytes)
        : m_photos(photos)
        , m_mostBytes(mostBytes)
    {
    }

    void operator()(const told::Heading& heading)
    {
        if (heading.level == 1) {
            m_out += QStringLiteral("<h2>%1</h2>\n").arg(htmlText(heading.text));
            return;
        }
        m_out += QStringLiteral("<div class=\"item\"><h3>%1</h3>").arg(htmlText(heading.text));
        if (!heading.aside.isEmpty())
            m_out += QStringLiteral("<p class=\"s m\">%1</p>").arg(htmlText(heading.aside));
        m_out += QStringLiteral("</div>\n");
    }

    void operator()(const told::Row& row)
    {
        const std::vector<Cell>& cells = row.cells;
        if (cells.size() == 1 && cells.front().x == 0) {
            m_out += paragraph(cells.front());
            return;
        }
        QStringList columns;
        double x = 0;
        for (std::size_t i = 0; i < cells.size(); ++i) {
            if (i == 0 && cells[0].x > 0) {
                columns.append(percent(cells[0].x));
                x = cells[0].x;
            }
            const double next = i + 1 < cells.size() ? cells[i + 1].x : column;
            columns.append(percent(next - x));
            x = next;
        }
        m_out += QStringLiteral("<div class=\"row\" style=\"grid-template-columns:%1\">")
                     .arg(columns.join(QLatin1Char(' ')));
        if (cells.front().x > 0)
            m_out += QStringLiteral("<i></i>");
        for (const Cell& cell : cells)
            m_out += paragraph(cell);
        m_out += QStringLiteral("</div>\n");
    }

    void operator()(const told::Line&) { m_out += QStringLiteral("<hr>\n"); }

    void operator()(const told::Gap& gap)
    {
        m_out += QStringLiteral("<div style=\"height:%1mm\"></div>\n").arg(gap.height / mm);
    }

    void operator()(const told::Shots& shots)
    {
        m_out += QStringLiteral("<div class=\"shots\" style=\"margin-left:%1;--wide:%2mm\">")
                     .arg(percent(shots.x))
                     .arg(shotWidth(shots.x, shots.shots.size()) / mm, 0, 'f', 1);
        for (const Shot& shot : shots.shots) {
            const QString caption = lined(shot.caption);
            m_out += QStringLiteral("<figure>%1<figcaption class=\"s m\">%2</figcaption></figure>")
                         .arg(picture(shot), caption);
        }
        m_out += QStringLiteral("</div>\n");
    }

    void operator()(const told::Drawing& drawing)
    {
        m_out += svgOf(drawing.block.items, QSizeF(column, drawing.block.height), drawing.words,
                       QStringLiteral("d%1").arg(++m_drawings));
    }

    void operator()(const told::PageEnd&) { m_out += QStringLiteral("</section>\n<section>\n"); }

    [[nodiscard]] const QString& out() const { return m_out; }

private:
    static QString paragraph(const Cell& cell)
    {
        const QString name = classOf(cell.type, cell.tone);
        return QStringLiteral("<p%1>%2</p>\n")
            .arg(name.isEmpty() ? QString() : QStringLiteral(" class=\"%1\"").arg(name),
                 lined(cell.text));
    }

    [[nodiscard]] QString picture(const Shot& shot) const
    {
        if (!shot.gone.isEmpty())
            return QStringLiteral("<p class=\"lost s m\">%1</p>").arg(htmlText(shot.gone));
        const auto photo = boundedPhoto(m_photos, shot.photo, m_mostBytes);
        if (!photo)
            return QStringLiteral("<p class=\"lost s m\">%1</p>")
                .arg(htmlText(words(photo.error())));
        return QStringLiteral("<img alt=\"%1\" width=\"%2\" height=\"%3\" "
                              "src=\"data:image/jpeg;base64,%4\">")
            .arg(htmlText(shot.caption).replace(QLatin1Char('\n'), QLatin1Char(' ')),
                 QString::number(photo->size.width()), QString::number(photo->size.height()),
                 QString::fromLatin1(photo->jpeg.toBase64()));
    }

    const PhotoVault& m_photos;
    qsizetype m_mostBytes;
    QString m_out;
    int m_drawings = 0;
};

QString stateOf(const RecordModel& model)
{
    const char* shape = model.status == CarStatus::Released    ? "released"
                        : model.status == CarStatus::Withdrawn ? "gone"
                                                               : "held";
    QString html = QStringLiteral("<div class=\"state %1\"><p class=\"lead\">%2</p><p>%3</p>")
                       .arg(QLatin1String(shape), htmlText(statusTitle(model)),
                            htmlText(statusSentence(model)));
    for (const QString& hold : frontHolds(model))
        html += QStringLiteral("<p class=\"s\">%1</p>").arg(lined(hold));
    return html + QStringLiteral("</div>\n");
}

QString codeOf(const RecordModel& model)
{
    return QStringLiteral(
               "<div class=\"code\">%1<div><p class=\"s m\">%2</p><p class=\"s b\">%3</p>"
               "<p class=\"s m\">%4</p></div></div>\n")
        .arg(svgOf({Code{QRectF(0, 0, pageCodeSide, pageCodeSide), stampCode(stampOf(model))}},
                   QSizeF(pageCodeSide, pageCodeSide), say("The record's code"),
                   QStringLiteral("code")),
             htmlText(say("Fingerprint")), htmlText(model.fingerprint), htmlText(frontCodeWords()));
}

/// Whether the front has the code in its left column.
bool isCodeAtLeft(const Page& front)
{
    return std::ranges::any_of(front, [](const Item& item) {
        const auto* code = std::get_if<Code>(&item);
        return code != nullptr && code->box.center().x() < pageWidth / 2;
    });
}

QString planOf(const RecordModel& model, const QString& below)
{
    Page plan;
    addCarPlan(plan, model, QRectF(0, 0, planWidth, planHeight));
    QString legend;
    int number = 0;
    for (const auto& [mark, words] : frontLegend())
        legend += QStringLiteral("<span>%1%2</span> ")
                      .arg(svgOf({Swatch{QRectF(15, 15, 320, 320), mark}}, QSizeF(350, 350), words,
                                 QStringLiteral("l%1").arg(++number)),
                           htmlText(words));
    return QStringLiteral("<figure class=\"plan\">%1<figcaption class=\"s m\">%2<br>%3"
                          "</figcaption>%4</figure>\n")
        .arg(svgOf(plan, QSizeF(planWidth, planHeight),
                   say("The car from above: what was found, by its numbers, and the tyre readings"),
                   QStringLiteral("plan")),
             legend, htmlText(frontTyreWords()), below);
}

QString frontOf(const RecordModel& model, bool codeAtLeft)
{
    QString html =
        QStringLiteral("<header><p class=\"lead\">%1</p><p class=\"s m\">%2</p></header>\n")
            .arg(htmlText(frontTitle()), htmlText(frontMade(model)));
    if (const QString demo = frontDemo(model); !demo.isEmpty())
        html += QStringLiteral("<p class=\"demo b\">%1</p>\n").arg(htmlText(demo));
    html += QStringLiteral("<div class=\"front\"><div>\n<h1>%1</h1>\n<p class=\"lead\">%2</p>\n")
                .arg(htmlText(model.identity.stockNumber), htmlText(frontName(model)));
    html += stateOf(model);
    html += QStringLiteral("<ul class=\"counts\">");
    for (const FrontCount& count : countsOf(model))
        html += QStringLiteral("<li><b>%1</b> <span class=\"s m\">%2</span></li>")
                    .arg(htmlText(count.number), htmlText(count.label));
    html += QStringLiteral("</ul>\n<dl>");
    for (const auto& [label, value] : factsOf(model))
        html += QStringLiteral("<div><dt class=\"s m\">%1</dt><dd>%2</dd></div>")
                    .arg(htmlText(label), lined(value));
    html += QStringLiteral("</dl>\n") + (codeAtLeft ? codeOf(model) : QString()) +
            QStringLiteral("</div>\n");
    return html + planOf(model, codeAtLeft ? QString() : codeOf(model)) +
           QStringLiteral("</div>\n");
}

/// The foot of each printed page.
QString footOf(const RecordModel& model)
{
    QString left = QStringLiteral("%1 - %2").arg(model.identity.stockNumber, model.fingerprint);
    if (model.demo)
        left += QStringLiteral(" - %1").arg(say("demo workshop, all made up"));
    const QStringList of = say("%1 of %2").split(QStringLiteral("%2"));
    const QString between = of.front().section(QStringLiteral("%1"), 1);
    return QStringLiteral("@page{@bottom-left{content:\"%1\"}@bottom-right{content:counter(page) "
                          "\"%2\" counter(pages)}}\n")
        .arg(cssText(left), cssText(between));
}

std::size_t photosIn(const Flow& flow)
{
    std::size_t count = 0;
    for (const Told& told : flow.told())
        if (const auto* shots = std::get_if<told::Shots>(&told))
            count += static_cast<std::size_t>(std::ranges::count_if(
                shots->shots, [](const Shot& shot) { return shot.gone.isEmpty(); }));
    return count;
}

} // namespace

tl::expected<QByteArray, QString> renderHtml(const RecordModel& model, const PhotoVault& photos,
                                             const RecordSealer& sealer)
{
    // The first page's cut is the PDF's, so that both say the same.
    Page front;
    const Flow flow = flowOf(model, addFront(front, model));
    FlowWriter writer(photos, mostBytesEach(photosIn(flow)));
    for (const Told& told : flow.told())
        std::visit(writer, told);
    const QString html =
        QStringLiteral("<!DOCTYPE html>\n<html lang=\"%1\">\n<head>\n<meta charset=\"utf-8\">\n"
                       "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; "
                       "img-src data:; font-src data:; style-src 'unsafe-inline'\">\n"
                       "<meta name=\"viewport\" content=\"width=device-width\">\n"
                       "<meta name=\"referrer\" content=\"no-referrer\">\n"
                       "<title>%2</title>\n<style>\n")
            .arg(htmlText(recordLanguage()), htmlText(documentTitle(model))) +
        typeface("B612-Regular.otf", 400) + typeface("B612-Bold.otf", 700) +
        QString::fromUtf8(resource("record.css")) + footOf(model) +
        QStringLiteral("</style>\n</head>\n<body>\n<main>\n<section class=\"buyer\">\n") +
        frontOf(model, isCodeAtLeft(front)) + writer.out() +
        QStringLiteral("</section>\n</main>\n</body>\n</html>\n");
    return stampHtml(html.toUtf8(), stampOf(model), sealer);
}

} // namespace ramplight
