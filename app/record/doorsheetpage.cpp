// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// How the door sheet lies on its page: read through a side window from two steps away.
#include "record/doorsheet.h"

#include "domain/say.h"
#include "outlines/qrcode.h"
#include "record/paper.h"
#include "record/papertype.h"
#include "record/smallpage.h"

#include <QFontMetricsF>
#include <QPageSize>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace ramplight {

namespace {

using paper::mm;

constexpr double width = 148 * mm;
constexpr double height = 210 * mm;
constexpr double margin = 9 * mm; // what no printer leaves white
constexpr double column = width - 2 * margin;
constexpr double codeSide = 38 * mm;
constexpr double footTop = height - margin - codeSide;

// Em sizes.
constexpr double hugeSize = 40 * mm;     ///< the stock number, where it is short
constexpr double lessHugeSize = 26 * mm; ///< where much must not be done with the car
constexpr double titleSize = 14.5 * mm;
constexpr double subtitleSize = 7.6 * mm;
constexpr double plateSize = 8.4 * mm;
constexpr double carSize = 5.2 * mm;
constexpr double strapSize = 6.6 * mm;
constexpr double narrowStrapSize = 4.6 * mm; ///< when there are many
constexpr double headingSize = 5 * mm;
constexpr double lineSize = 4.3 * mm;
constexpr double leastLineSize = 3.1 * mm;
constexpr double smallSize = 3.1 * mm;

const QColor ink(0x1e, 0x1c, 0x1a);
const QColor muted(0x5a, 0x55, 0x4c);

QFont fontAt(double size, bool bold)
{
    QFont font = paper::fontOf(bold ? paper::Type::Bold : paper::Type::Body);
    font.setPixelSize(static_cast<int>(std::lround(size)));
    return font;
}

/// Writes down the page.
class SheetPainter
{
public:
    SheetPainter(QPainter& painter, const DoorSheetModel& model)
        : m_painter(painter)
        , m_model(model)
    {
    }

    void paint()
    {
        m_painter.setRenderHints(QPainter::Antialiasing | QPainter::TextAntialiasing);
        banner();
        identity();
        straps();
        outstanding();
        foot();
    }

private:
    void banner()
    {
        const double high = 30 * mm;
        const QRectF band(margin, margin, column, high);
        m_painter.fillRect(band, ink);
        m_painter.setPen(Qt::white);
        text(say("NOT FOR SALE"), fitted(say("NOT FOR SALE"), titleSize, column - 8 * mm),
             QRectF(margin, margin + 2.5 * mm, column, 15 * mm));
        text(say("in preparation"), fontAt(subtitleSize, false),
             QRectF(margin, margin + 17.5 * mm, column, 10 * mm));
        m_y = band.bottom() + 1 * mm;
    }

    void identity()
    {
        m_painter.setPen(ink);
        const double size = m_model.restraints.size() > 3 ? lessHugeSize : hugeSize;
        const QFont huge = fitted(m_model.stockNumber, size, column);
        const QFontMetricsF metrics(huge);
        const double high = metrics.capHeight() + 9 * mm;
        m_painter.setFont(huge);
        m_painter.drawText(QPointF(width / 2 - metrics.horizontalAdvance(m_model.stockNumber) / 2,
                                   m_y + 4.5 * mm + metrics.capHeight()),
                           m_model.stockNumber);
        m_y += high;
        if (!m_model.registration.isEmpty()) {
            const QFont plate = fitted(m_model.registration, plateSize, column - 12 * mm);
            const double across =
                QFontMetricsF(plate).horizontalAdvance(m_model.registration) + 10 * mm;
            const QRectF box(width / 2 - across / 2, m_y, across, 11.5 * mm);
            m_painter.setPen(QPen(ink, 0.5 * mm));
            m_painter.setBrush(Qt::NoBrush);
            m_painter.drawRoundedRect(box, 1.5 * mm, 1.5 * mm);
            text(m_model.registration, plate, box);
            m_y = box.bottom() + 1.5 * mm;
        }
        text(m_model.carWords, fitted(m_model.carWords, carSize, column),
             QRectF(margin, m_y, column, 7 * mm));
        m_y += 8.5 * mm;
    }

    /// What must not be done: all of it, however much that is.
    void straps()
    {
        const double size = m_model.restraints.size() > 2 ? narrowStrapSize : strapSize;
        const QFont font = fontAt(size, true);
        for (const QString& restraint : m_model.restraints) {
            const QStringList lines = broken(restraint, font, column - 8 * mm);
            const double step = size * 1.25;
            const QRectF box(margin, m_y, column, double(lines.size()) * step + size * 0.6);
            m_painter.fillRect(box, ink);
            m_painter.setPen(Qt::white);
            for (qsizetype i = 0; i < lines.size(); ++i)
                text(lines.at(i), font,
                     QRectF(box.left(), box.top() + size * 0.3 + double(i) * step, column, step));
            m_y = box.bottom() + 1.2 * mm;
        }
        m_y += 1.2 * mm;
    }

    void outstanding()
    {
        m_painter.setPen(ink);
        if (m_model.lines.empty()) {
            paragraph(m_model.statusWords, fontAt(headingSize, true), footTop - 2 * mm);
            return;
        }
        const auto count = static_cast<int>(m_model.lines.size());
        const QString heading =
            m_model.safetyCount == 0
                ? say("Outstanding: %1").arg(count)
                : say("Outstanding: %1, of which safety: %2").arg(count).arg(m_model.safetyCount);
        left(heading, fontAt(headingSize, true), m_y, ink);
        m_y += headingSize * 1.4;
        const ListLayout list = listFor(footTop - 2 * mm - m_y);
        const double top = m_y;
        for (std::size_t i = 0; i < list.places.size(); ++i) {
            const ListPlace& place = list.places[i];
            work(place.lines, m_model.lines[i].safety, list.size,
                 QPointF(margin + list.across * place.column, top + place.top));
        }
        const auto shown = static_cast<int>(list.places.size());
        if (shown < count)
            left(say("and %1 more, at the kiosk").arg(count - shown), fontAt(list.size, false),
                 top + list.moreTop, muted, list.across * (list.columns - 1) + 6 * mm);
    }

    /// Where one piece of work stands in the list, from the list's top.
    struct ListPlace
    {
        QStringList lines;
        int column = 0;
        double top = 0;
    };

    /// All of it in one size, in one column or two.
    struct ListLayout
    {
        double size = 0;
        int columns = 1;
        double across = 0;
        std::vector<ListPlace> places; ///< of those that have room
        double moreTop = 0;            ///< of the line about the others
    };

    /// The largest size in which everything has room; some of it in the smallest.
    [[nodiscard]] ListLayout listFor(double room) const
    {
        for (const double size : {lineSize, lineSize * 0.9, lineSize * 0.8, leastLineSize}) {
            for (const int columns : {1, 2}) {
                // Two columns are of a height as far as they can be.
                const double least = columns == 1 ? room : room / 2;
                for (int more = 0; least + more * size <= room; ++more) {
                    ListLayout list = listIn(size, columns, least + more * size);
                    if (list.places.size() == m_model.lines.size())
                        return list;
                }
            }
        }
        return listIn(leastLineSize, 2, room);
    }

    /// Those that have room, with the line about the others where there are any.
    [[nodiscard]] ListLayout listIn(double size, int columns, double high) const
    {
        constexpr double lineStep = 1.2;
        constexpr double gap = 0.3;
        ListLayout list{size, columns, column / columns, {}, 0};
        double top = 0;
        int at = 0;
        for (const DoorSheetLine& line : m_model.lines) {
            const QString words = line.note.isEmpty()
                                      ? line.title
                                      : QStringLiteral("%1 (%2)").arg(line.title, line.note);
            QStringList lines = broken(words, fontAt(size, line.safety), list.across - 8 * mm);
            const bool isLast = &line == &m_model.lines.back();
            const auto bottom = [&](double from) {
                const bool needsMore = at == columns - 1 && !isLast;
                return from + size * lineStep * double(lines.size() + (needsMore ? 1 : 0));
            };
            if (bottom(top) > high && at < columns - 1 && top > 0) {
                ++at;
                top = 0;
            }
            if (bottom(top) > high)
                break;
            const double next = top + size * (lineStep * double(lines.size()) + gap);
            list.places.push_back({std::move(lines), at, top});
            top = next;
        }
        list.moreTop = top;
        return list;
    }

    /// A hatched mark before what is safety, an empty one before the rest.
    void work(const QStringList& lines, bool safety, double size, QPointF at)
    {
        const double side = size * 0.75;
        const QRectF box(at.x(), at.y() + size * 0.71 - side / 2, side, side);
        if (safety) {
            m_painter.save();
            m_painter.setClipRect(box);
            m_painter.setPen(QPen(ink, 0.55 * mm, Qt::SolidLine, Qt::FlatCap));
            const int strokes = static_cast<int>(2 * side / (1.15 * mm)) + 1;
            for (int i = 0; i < strokes; ++i) {
                const double x = box.left() - side + i * 1.15 * mm;
                m_painter.drawLine(QPointF(x, box.bottom()), QPointF(x + side, box.top()));
            }
            m_painter.restore();
        }
        m_painter.setPen(QPen(ink, 0.3 * mm));
        m_painter.setBrush(Qt::NoBrush);
        m_painter.drawRect(box);
        const QFont font = fontAt(size, safety);
        for (qsizetype i = 0; i < lines.size(); ++i)
            left(lines.at(i), font, at.y() + size * 1.2 * double(i), ink, at.x() - margin + 6 * mm);
    }

    void foot()
    {
        m_painter.setPen(QPen(ink, 0.3 * mm));
        m_painter.drawLine(QPointF(margin, footTop), QPointF(margin + column, footTop));
        const double words = m_model.code.isEmpty() ? column : column - codeSide - 4 * mm;
        m_y = footTop + 2.4 * mm;
        const double end = height - margin;
        if (!m_model.code.isEmpty()) {
            const QRectF place(margin + column - codeSide, footTop + 1 * mm, codeSide,
                               codeSide - 4 * mm);
            paintQrCode(m_painter, qrCode(m_model.code), place);
            m_painter.setPen(ink);
            text(m_model.code, fitted(m_model.code, smallSize, codeSide),
                 QRectF(place.left(), place.bottom() - 0.6 * mm, codeSide, 4 * mm));
        }
        paragraph(m_model.code.isEmpty()
                      ? say("Type the stock number at the kiosk to open this car.")
                      : say("Scan this at the kiosk to open the car."),
                  fontAt(lineSize, true), end, words);
        paragraph(m_model.promisedWords, fontAt(smallSize * 1.15, false), end, words);
        paragraph(say("As of %1. What holds now stands at the kiosk: look there before you move, "
                      "drive or power this car.")
                      .arg(m_model.madeWords),
                  fontAt(smallSize * 1.15, false), end, words);
        m_y += 0.8 * mm;
        paragraph(m_model.demo
                      ? say("%1. Demo workshop: everything here is made up.").arg(m_model.site)
                      : m_model.site,
                  fontAt(smallSize, false), end, words, muted);
    }

    /// As large as fits the width, at most that size.
    static QFont fitted(const QString& words, double size, double across)
    {
        const double natural = QFontMetricsF(fontAt(size, true)).horizontalAdvance(words);
        return fontAt(natural <= across ? size : size * across / natural, true);
    }

    static QStringList broken(const QString& words, const QFont& font, double across)
    {
        const QFontMetricsF metrics(font);
        QStringList lines;
        QString line;
        for (const QString& word : words.split(QLatin1Char(' '), Qt::SkipEmptyParts)) {
            const QString longer = line.isEmpty() ? word : line + QLatin1Char(' ') + word;
            if (!line.isEmpty() && metrics.horizontalAdvance(longer) > across) {
                lines.append(line);
                line = word;
            } else {
                line = longer;
            }
        }
        if (!line.isEmpty())
            lines.append(line);
        return lines;
    }

    /// In the middle of a place.
    void text(const QString& words, const QFont& font, const QRectF& place)
    {
        m_painter.setFont(font);
        m_painter.drawText(place, Qt::AlignCenter | Qt::TextSingleLine, words);
    }

    void left(const QString& words, const QFont& font, double top, const QColor& tone,
              double in = 0)
    {
        m_painter.setFont(font);
        m_painter.setPen(tone);
        m_painter.drawText(QPointF(margin + in, top + font.pixelSize() * 1.02), words);
    }

    /// Whole lines only, none below end.
    void paragraph(const QString& words, const QFont& font, double end, double across = column,
                   const QColor& tone = ink)
    {
        const double step = font.pixelSize() * 1.3;
        for (const QString& line : broken(words, font, across)) {
            if (m_y + step > end + 1)
                return;
            left(line, font, m_y, tone);
            m_y += step;
        }
    }

    QPainter& m_painter;
    const DoorSheetModel& m_model;
    double m_y = 0;
};

} // namespace

tl::expected<QByteArray, QString> renderDoorSheetPdf(const DoorSheetModel& model)
{
    return paper::smallPdf(QPageSize(QPageSize::A5), say("Door sheet %1").arg(model.stockNumber),
                           say("The door sheet could not be written."),
                           [&](QPainter& painter) { SheetPainter(painter, model).paint(); });
}

QImage renderDoorSheetImage(const DoorSheetModel& model, double dpi)
{
    return paper::smallImage(width, height, dpi,
                             [&](QPainter& painter) { SheetPainter(painter, model).paint(); });
}

} // namespace ramplight
