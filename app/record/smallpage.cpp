// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/smallpage.h"

#include <QBuffer>
#include <QPageLayout>
#include <QPainter>
#include <QPdfWriter>

#include <cmath>

namespace ramplight::paper {

namespace {

constexpr int unitsPerInch = 2540; // a hundredth of a millimetre

} // namespace

tl::expected<QByteArray, QString> smallPdf(const QPageSize& size, const QString& title,
                                           const QString& otherwise, const PaintPage& paint)
{
    QByteArray pdf;
    QBuffer buffer(&pdf);
    buffer.open(QIODevice::WriteOnly);
    QPdfWriter writer(&buffer);
    writer.setResolution(unitsPerInch);
    writer.setPageLayout(QPageLayout(size, QPageLayout::Portrait, QMarginsF(0, 0, 0, 0)));
    writer.setTitle(title);
    writer.setCreator(QStringLiteral("Ramplight"));
    QPainter painter;
    if (!painter.begin(&writer))
        return tl::unexpected(otherwise);
    paint(painter);
    painter.end();
    return pdf;
}

QImage smallImage(double width, double height, double dpi, const PaintPage& paint)
{
    const double scale = dpi / unitsPerInch;
    QImage image(static_cast<int>(std::lround(width * scale)),
                 static_cast<int>(std::lround(height * scale)), QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    painter.scale(scale, scale);
    paint(painter);
    return image;
}

} // namespace ramplight::paper
