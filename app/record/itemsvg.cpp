// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/itemsvg.h"

#include "outlines/qrcode.h"
#include "record/htmltext.h"
#include "record/papertones.h"
#include "record/papertype.h"

#include <QPainterPath>

#include <cmath>

namespace ramplight::paper {

namespace {

constexpr int quietModules = 4;

/// Hundredths of a millimetre are fine enough for everything that is drawn.
QString whole(double value)
{
    return QString::number(std::lround(value));
}

QString pathData(const QPainterPath& path)
{
    QString data;
    const auto point = [&](const QPainterPath::Element& e) {
        data += QStringLiteral("%1 %2 ").arg(whole(e.x), whole(e.y));
    };
    for (int i = 0; i < path.elementCount(); ++i) {
        const QPainterPath::Element e = path.elementAt(i);
        switch (e.type) {
        case QPainterPath::MoveToElement:
            data += QLatin1Char('M');
            break;
        case QPainterPath::LineToElement:
            data += QLatin1Char('L');
            break;
        case QPainterPath::CurveToElement:
            data += QLatin1Char('C');
            break;
        case QPainterPath::CurveToDataElement:
            break;
        }
        point(e);
    }
    return data.trimmed();
}

class ItemWriter
{
public:
    explicit ItemWriter(const QString& name)
        : m_name(name)
    {
    }

    void operator()(const Text& item)
    {
        const bool bold = fontOf(item.type).bold();
        add(QStringLiteral("<text x=\"%1\" y=\"%2\" font-size=\"%3\" fill=\"%4\"%5>%6</text>")
                .arg(whole(item.baseline.x()), whole(item.baseline.y()),
                     QString::number(fontOf(item.type).pixelSize()), colourOf(item.tone).name(),
                     bold ? QStringLiteral(" font-weight=\"700\"") : QString(),
                     htmlText(item.text)));
    }
    void operator()(const Rule& item)
    {
        line(item.line, colourOf(item.tone), item.width, item.broken);
    }
    void operator()(const Box& item) { rectangle(item.box, {}, colourOf(item.tone), item.width); }
    void operator()(const Hatch& item) { rectangle(item.box, tones::filled, {}, 0); }
    void operator()(const Photo&) {}
    void operator()(const Anchor&) {}
    void operator()(const Leader& item)
    {
        line(item.line, tones::ink, 0.15 * mm, false);
        circle(item.line.p2(), 0.35 * mm, tones::ink, {}, 0);
    }
    void operator()(const Badge& item)
    {
        circle(item.centre, badgeRadius, tones::body, tones::ink, 0.22 * mm);
        const int size = fontOf(Type::SmallBold).pixelSize();
        add(QStringLiteral("<text x=\"%1\" y=\"%2\" font-size=\"%3\" font-weight=\"700\" "
                           "text-anchor=\"middle\" fill=\"%4\">%5</text>")
                .arg(whole(item.centre.x()), whole(item.centre.y() + size * 0.36),
                     QString::number(size), tones::ink.name(), htmlText(item.text)));
    }
    void operator()(const Swatch& item)
    {
        rectangle(item.box, item.mark == OutlineMark::Filled ? tones::filled : tones::body,
                  tones::ink, carLook().lineWidth);
        if (item.mark == OutlineMark::Hollow)
            rectangle(item.box.adjusted(30, 30, -30, -30), {}, tones::accent, 0.45 * mm);
        if (item.mark == OutlineMark::Stippled)
            for (const double x : {0.2, 0.5, 0.8})
                for (const double y : {0.25, 0.75})
                    circle(item.box.topLeft() +
                               QPointF(item.box.width() * x, item.box.height() * y),
                           0.18 * mm, tones::muted, {}, 0);
    }
    void operator()(const Code& item)
    {
        const QrCode code = qrCode(item.text);
        if (code.side == 0)
            return;
        const double module = item.box.width() / (code.side + 2 * quietModules);
        QString dark;
        for (int y = 0; y < code.side; ++y)
            for (int x = 0; x < code.side; ++x) {
                int run = 0;
                while (x + run < code.side && code.dark(x + run, y))
                    ++run;
                if (run > 0)
                    dark += QStringLiteral("M%1 %2h%3v1h-%3z")
                                .arg(x + quietModules)
                                .arg(y + quietModules)
                                .arg(run);
                x += run;
            }
        add(QStringLiteral("<g transform=\"translate(%1 %2) scale(%3)\" "
                           "shape-rendering=\"crispEdges\"><path fill=\"#fff\" "
                           "d=\"M0 0h%4v%4h-%4z\"/><path d=\"%5\"/></g>")
                .arg(whole(item.box.x()), whole(item.box.y()), QString::number(module, 'f', 3))
                .arg(code.side + 2 * quietModules)
                .arg(dark));
    }
    void operator()(const Car& item)
    {
        const auto shape = carShape(item.shape);
        if (!shape)
            return;
        for (const CarStroke& stroke : carStrokes(*shape, item.marks, carLook(), item.box, false))
            draw(stroke);
    }

    [[nodiscard]] QString take() const
    {
        return m_defs.isEmpty() ? m_out : QStringLiteral("<defs>%1</defs>%2").arg(m_defs, m_out);
    }

private:
    void add(const QString& element) { m_out += element + QLatin1Char('\n'); }

    static QString paint(const QColor& fill, const QColor& edge, double width)
    {
        return QStringLiteral("fill=\"%1\"%2")
            .arg(fill.isValid() ? fill.name() : QStringLiteral("none"),
                 edge.isValid() ? QStringLiteral(" stroke=\"%1\" stroke-width=\"%2\"")
                                      .arg(edge.name(), whole(width))
                                : QString());
    }
    void line(const QLineF& line, const QColor& tone, double width, bool broken)
    {
        add(QStringLiteral("<path d=\"M%1 %2L%3 %4\" %5%6/>")
                .arg(whole(line.x1()), whole(line.y1()), whole(line.x2()), whole(line.y2()),
                     paint({}, tone, width),
                     broken ? QStringLiteral(" stroke-dasharray=\"%1\"").arg(whole(width * 6))
                            : QString()));
    }
    void rectangle(const QRectF& box, const QColor& fill, const QColor& edge, double width)
    {
        add(QStringLiteral("<rect x=\"%1\" y=\"%2\" width=\"%3\" height=\"%4\" %5/>")
                .arg(whole(box.x()), whole(box.y()), whole(box.width()), whole(box.height()),
                     paint(fill, edge, width)));
    }
    void circle(QPointF at, double radius, const QColor& fill, const QColor& edge, double width)
    {
        add(QStringLiteral("<circle cx=\"%1\" cy=\"%2\" r=\"%3\" %4/>")
                .arg(whole(at.x()), whole(at.y()), whole(radius), paint(fill, edge, width)));
    }
    /// Two dots of the staggered grid, repeated.
    QString stipple(const CarStroke& stroke)
    {
        const QString id = QStringLiteral("%1-dots").arg(m_name);
        if (!m_defs.contains(id)) {
            const double step = stroke.dot * stippleStep;
            const double down = stroke.dot * stippleRow;
            const auto dot = [&](double x, double y) {
                return QStringLiteral("<circle cx=\"%1\" cy=\"%2\" r=\"%3\" fill=\"%4\"/>")
                    .arg(whole(x), whole(y), whole(stroke.dot), stroke.line.name());
            };
            m_defs += QStringLiteral("<pattern id=\"%1\" width=\"%2\" height=\"%3\" "
                                     "patternUnits=\"userSpaceOnUse\">%4%5</pattern>")
                          .arg(id, whole(step), whole(2 * down), dot(step / 4, down / 2),
                               dot(step * 3 / 4, down * 3 / 2));
        }
        return id;
    }
    void draw(const CarStroke& stroke)
    {
        const QString data = pathData(stroke.path);
        if (stroke.dot > 0) {
            add(QStringLiteral("<path d=\"%1\" fill=\"url(#%2)\"/>").arg(data, stipple(stroke)));
            return;
        }
        QString more;
        double width = stroke.width;
        if (stroke.inside) {
            const QString id = QStringLiteral("%1-in%2").arg(m_name).arg(++m_clips);
            m_defs +=
                QStringLiteral("<clipPath id=\"%1\"><path d=\"%2\"/></clipPath>").arg(id, data);
            more = QStringLiteral(" clip-path=\"url(#%1)\"").arg(id);
            width *= 2;
        }
        if (stroke.opacity < 1)
            more += QStringLiteral(" opacity=\"%1\"").arg(stroke.opacity);
        add(QStringLiteral("<path d=\"%1\" %2 stroke-linejoin=\"round\"%3/>")
                .arg(data, paint(stroke.fill, stroke.line, width), more));
    }

    QString m_name;
    QString m_out;
    QString m_defs;
    int m_clips = 0;
};

} // namespace

QString svgOf(const std::vector<Item>& items, QSizeF size, const QString& words,
              const QString& name)
{
    ItemWriter writer(name);
    for (const Item& item : items)
        std::visit(writer, item);
    return QStringLiteral("<svg role=\"img\" aria-label=\"%1\" viewBox=\"0 0 %2 %3\" "
                          "style=\"width:%4mm\">\n%5</svg>\n")
        .arg(htmlText(words), whole(size.width()), whole(size.height()),
             QString::number(size.width() / mm), writer.take());
}

} // namespace ramplight::paper
