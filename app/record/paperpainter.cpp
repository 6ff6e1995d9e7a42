// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/paperpainter.h"

#include "outlines/qrcode.h"
#include "record/papertones.h"
#include "record/papertype.h"

#include <QColor>
#include <QCoreApplication>
#include <QImage>
#include <QPainter>
#include <QPainterPath>

#include <algorithm>

namespace ramplight::paper {

namespace {

class ItemPainter
{
public:
    ItemPainter(QPainter& painter, const PhotoVault& photos)
        : m_painter(painter)
        , m_photos(photos)
    {
    }

    void operator()(const Text& item) const
    {
        m_painter.setFont(fontOf(item.type));
        m_painter.setPen(colourOf(item.tone));
        m_painter.drawText(item.baseline, item.text);
    }

    void operator()(const Rule& item) const
    {
        m_painter.setPen(pen(item.tone, item.width, item.broken));
        m_painter.drawLine(item.line);
    }

    void operator()(const Box& item) const
    {
        m_painter.setPen(pen(item.tone, item.width, item.broken));
        m_painter.setBrush(Qt::NoBrush);
        if (!item.folded) {
            m_painter.drawRect(item.box);
            return;
        }
        const double fold = 7 * mm;
        const QPointF right = item.box.topRight();
        QPainterPath path(item.box.topLeft());
        path.lineTo(right - QPointF(fold, 0));
        path.lineTo(right + QPointF(0, fold));
        path.lineTo(item.box.bottomRight());
        path.lineTo(item.box.bottomLeft());
        path.closeSubpath();
        m_painter.drawPath(path);
        const QPolygonF corner{right - QPointF(fold, 0), right + QPointF(-fold, fold),
                               right + QPointF(0, fold)};
        m_painter.setBrush(colourOf(item.tone));
        m_painter.drawPolygon(corner);
    }

    void operator()(const Hatch& item) const
    {
        m_painter.save();
        m_painter.setClipRect(item.box);
        m_painter.setPen(QPen(tones::ink, 1.1 * mm, Qt::SolidLine, Qt::FlatCap));
        const double run = item.box.height();
        const int lines = static_cast<int>((item.box.width() + 2 * run) / (2.8 * mm)) + 1;
        for (int i = 0; i < lines; ++i) {
            const double x = item.box.left() - run + i * 2.8 * mm;
            m_painter.drawLine(QPointF(x, item.box.bottom()), QPointF(x + run, item.box.top()));
        }
        m_painter.restore();
    }

    void operator()(const Photo& item) const
    {
        if (!item.gone.isEmpty()) {
            missing(item.box, item.gone);
            return;
        }
        const auto bytes = m_photos.thumbnail(item.photo, ThumbnailSize::Panel);
        const QImage image = bytes ? QImage::fromData(*bytes) : QImage();
        if (image.isNull()) {
            missing(item.box, bytes ? QString() : words(bytes.error()));
            return;
        }
        const QSizeF size = QSizeF(image.size()).scaled(item.box.size(), Qt::KeepAspectRatio);
        // To the left edge, where the caption begins.
        m_painter.drawImage(QRectF(item.box.topLeft(), size), image);
    }

    void operator()(const Car& item) const
    {
        if (const auto shape = carShape(item.shape))
            paintCar(m_painter, *shape, item.marks, carLook(), item.box, false);
    }

    void operator()(const Leader& item) const
    {
        m_painter.setPen(QPen(tones::ink, 0.15 * mm));
        m_painter.drawLine(item.line);
        m_painter.setBrush(tones::ink);
        m_painter.drawEllipse(item.line.p2(), 0.35 * mm, 0.35 * mm);
    }

    void operator()(const Badge& item) const
    {
        m_painter.setBrush(tones::body);
        m_painter.setPen(QPen(tones::ink, 0.22 * mm));
        m_painter.drawEllipse(item.centre, badgeRadius, badgeRadius);
        m_painter.setFont(fontOf(Type::SmallBold));
        m_painter.drawText(QRectF(item.centre - QPointF(badgeRadius, badgeRadius),
                                  QSizeF(2 * badgeRadius, 2 * badgeRadius)),
                           Qt::AlignCenter, item.text);
    }

    void operator()(const Code& item) const { paintQrCode(m_painter, qrCode(item.text), item.box); }

    void operator()(const Anchor&) const {}

    void operator()(const Swatch& item) const
    {
        m_painter.setPen(QPen(tones::ink, carLook().lineWidth));
        m_painter.setBrush(item.mark == OutlineMark::Filled ? tones::filled : tones::body);
        m_painter.drawRect(item.box);
        if (item.mark == OutlineMark::Hollow) {
            m_painter.setPen(QPen(tones::accent, 0.45 * mm));
            const double in = 0.3 * mm;
            m_painter.drawRect(item.box.adjusted(in, in, -in, -in));
        }
        if (item.mark == OutlineMark::Stippled) {
            m_painter.setPen(Qt::NoPen);
            m_painter.setBrush(tones::muted);
            for (const double x : {0.2, 0.5, 0.8})
                for (const double y : {0.25, 0.75})
                    m_painter.drawEllipse(item.box.topLeft() +
                                              QPointF(item.box.width() * x, item.box.height() * y),
                                          0.18 * mm, 0.18 * mm);
        }
    }

private:
    static QPen pen(Tone tone, double width, bool broken)
    {
        QPen made(colourOf(tone), width, Qt::SolidLine, Qt::FlatCap, Qt::MiterJoin);
        if (broken)
            made.setDashPattern({8, 5});
        return made;
    }

    void missing(const QRectF& box, const QString& why) const
    {
        m_painter.setPen(pen(Tone::Muted, 0.2 * mm, true));
        m_painter.setBrush(tones::empty);
        m_painter.drawRect(box);
        m_painter.setFont(fontOf(Type::Small));
        m_painter.setPen(tones::muted);
        const double in = 2 * mm;
        m_painter.drawText(
            box.adjusted(in, in, -in, -in), Qt::AlignCenter | Qt::TextWordWrap,
            why.isEmpty() ? QCoreApplication::translate("ramplight", "This photo cannot be shown.")
                          : why);
    }

    QPainter& m_painter;
    const PhotoVault& m_photos;
};

} // namespace

void paintPage(QPainter& painter, const Page& page, const PhotoVault& photos)
{
    painter.setRenderHints(QPainter::Antialiasing | QPainter::SmoothPixmapTransform |
                           QPainter::TextAntialiasing);
    const ItemPainter paint(painter, photos);
    for (const Item& item : page)
        std::visit(paint, item);
}

} // namespace ramplight::paper
