// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "samples.h"

#include <QBuffer>
#include <QImageWriter>
#include <QPainter>
#include <QRandomGenerator>
#include <QtEndian>

#include <array>

namespace samples {
namespace {

QByteArray be16(quint16 value)
{
    QByteArray bytes(2, '\0');
    qToBigEndian(value, bytes.data());
    return bytes;
}

QByteArray be32(quint32 value)
{
    QByteArray bytes(4, '\0');
    qToBigEndian(value, bytes.data());
    return bytes;
}

/// CRC-32 as in ISO 3309, which PNG puts behind each chunk.
quint32 crc32(const QByteArray& bytes)
{
    quint32 crc = 0xFFFFFFFFU;
    for (const char c : bytes) {
        crc ^= static_cast<quint8>(c);
        for (int bit = 0; bit < 8; ++bit)
            crc = (crc >> 1U) ^ ((crc & 1U) != 0 ? 0xEDB88320U : 0U);
    }
    return ~crc;
}

QByteArray segment(quint8 marker, const QByteArray& payload)
{
    return QByteArray("\xFF", 1) + static_cast<char>(marker) +
           be16(static_cast<quint16>(payload.size() + 2)) + payload;
}

} // namespace

QImage panel(QSize size, int seed)
{
    QImage image(size, QImage::Format_RGB32);
    QRandomGenerator random(static_cast<quint32>(seed));
    image.fill(QColor::fromHsv(random.bounded(360), 90, 150));
    QPainter painter(&image);
    const int step = std::max(2, size.width() / 24);
    for (int x = 0; x < size.width(); x += step)
        painter.fillRect(x, random.bounded(size.height()), step - 1, size.height() / 3,
                         QColor::fromHsv(random.bounded(360), 120, 60 + random.bounded(180)));
    painter.setPen(QPen(Qt::white, std::max(1, size.width() / 300)));
    for (int i = 0; i < 30; ++i)
        painter.drawLine(random.bounded(size.width()), random.bounded(size.height()),
                         random.bounded(size.width()), random.bounded(size.height()));
    return image;
}

QImage quadrants(QSize size)
{
    QImage image(size, QImage::Format_RGB32);
    const int w = size.width() / 2;
    const int h = size.height() / 2;
    QPainter painter(&image);
    painter.fillRect(0, 0, w, h, Qt::red);
    painter.fillRect(w, 0, size.width() - w, h, Qt::green);
    painter.fillRect(0, h, w, size.height() - h, Qt::blue);
    painter.fillRect(w, h, size.width() - w, size.height() - h, Qt::yellow);
    return image;
}

QByteArray jpeg(const QImage& image, int quality, bool progressive)
{
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    QImageWriter writer(&buffer, "jpeg");
    writer.setQuality(quality);
    writer.setProgressiveScanWrite(progressive);
    writer.write(image);
    return bytes;
}

QByteArray png(const QImage& image)
{
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    QImageWriter(&buffer, "png").write(image);
    return bytes;
}

QByteArray withSegment(const QByteArray& jpeg, quint8 marker, const QByteArray& payload)
{
    return jpeg.left(2) + segment(marker, payload) + jpeg.mid(2);
}

QByteArray exifOrientation(int orientation)
{
    // TIFF header, one directory with one entry: tag 0x0112, SHORT, count 1.
    return QByteArray("Exif\0\0MM\0*", 10) + be32(8) + be16(1) + be16(0x0112) + be16(3) + be32(1) +
           be16(static_cast<quint16>(orientation)) + be16(0) + be32(0);
}

QByteArray exifWithPosition(int orientation)
{
    // The directory's two entries: orientation, and where the directory of the position begins;
    // there: latitude north, 50 degrees 6 minutes 7 seconds (EXIF 2.32, 4.6.6).
    const auto rational = [](quint32 value) { return be32(value) + be32(1); };
    const quint32 position = 8 + 2 + 2 * 12 + 4;
    const quint32 figures = position + 2 + 2 * 12 + 4;
    return QByteArray("Exif\0\0MM\0*", 10) + be32(8) + be16(2) + be16(0x0112) + be16(3) + be32(1) +
           be16(static_cast<quint16>(orientation)) + be16(0) + be16(0x8825) + be16(4) + be32(1) +
           be32(position) + be32(0) + be16(2) + be16(1) + be16(2) + be32(2) +
           QByteArray("N\0\0\0", 4) + be16(2) + be16(5) + be32(3) + be32(figures) + be32(0) +
           rational(50) + rational(6) + rational(7) + QByteArray("SECRET PLACE");
}

QByteArray chunk(const char* type, const QByteArray& data)
{
    const QByteArray body = QByteArray(type, 4) + data;
    return be32(static_cast<quint32>(data.size())) + body + be32(crc32(body));
}

QByteArray withChunk(const QByteArray& png, const QByteArray& chunk)
{
    return png.left(33) + chunk + png.mid(33);
}

QByteArray pngHeader(quint32 width, quint32 height, quint8 bitDepth, quint8 colourType)
{
    return QByteArray("\x89PNG\r\n\x1A\n", 8) +
           chunk("IHDR", be32(width) + be32(height) + static_cast<char>(bitDepth) +
                             static_cast<char>(colourType) + QByteArray(3, '\0'));
}

QByteArray jpegShell(quint16 width, quint16 height, int components, int precision,
                     quint8 frameMarker, int scans)
{
    QByteArray frame = QByteArray(1, static_cast<char>(precision)) + be16(height) + be16(width) +
                       static_cast<char>(components);
    QByteArray scan(1, static_cast<char>(components));
    for (int i = 1; i <= components; ++i) {
        frame += static_cast<char>(i) + QByteArray("\x11\x00", 2);
        scan += static_cast<char>(i) + QByteArray("\x00", 1);
    }
    scan += QByteArray("\x00\x3F\x00", 3);
    QByteArray bytes = QByteArray("\xFF\xD8", 2) + segment(frameMarker, frame);
    for (int i = 0; i < scans; ++i)
        bytes += segment(0xDA, scan) + QByteArray("\x12\x34\xFF\x00\x56", 5);
    return bytes + QByteArray("\xFF\xD9", 2);
}

} // namespace samples
