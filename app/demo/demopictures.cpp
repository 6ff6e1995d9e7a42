// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "demo/demopictures.h"

#include <QPainter>
#include <QPainterPath>
#include <QRandomGenerator>

#include <map>
#include <memory>

namespace ramplight::demo {

namespace {

constexpr QSize pictureSize{960, 720};

void drawWheel(QPainter& painter, bool before)
{
    painter.setPen(Qt::NoPen);
    painter.setBrush(QColor(0x22, 0x22, 0x24));
    painter.drawEllipse(QPointF(480, 370), 300, 300);
    painter.setBrush(QColor(0xb9, 0xb6, 0xae));
    painter.drawEllipse(QPointF(480, 370), 215, 215);
    painter.setBrush(QColor(0x57, 0x55, 0x50));
    painter.drawEllipse(QPointF(480, 370), 180, 180);
    painter.setBrush(QColor(0xc9, 0xc6, 0xbe));
    for (int spoke = 0; spoke < 5; ++spoke) {
        painter.save();
        painter.translate(480, 370);
        painter.rotate(spoke * 72);
        QPainterPath path;
        path.moveTo(-26, 0);
        path.lineTo(-16, -205);
        path.lineTo(16, -205);
        path.lineTo(26, 0);
        painter.drawPath(path);
        painter.restore();
    }
    painter.setBrush(QColor(0x3a, 0x39, 0x36));
    painter.drawEllipse(QPointF(480, 370), 38, 38);
    if (!before)
        return;
    painter.setPen(QPen(QColor(0x4a, 0x45, 0x3e), 7));
    for (int i = 0; i < 9; ++i) {
        painter.save();
        painter.translate(480, 370);
        painter.rotate(105 + i * 5);
        painter.drawLine(0, -214 + (i % 3) * 3, 14, -196 + (i % 4) * 4);
        painter.restore();
    }
}

void drawPanel(QPainter& painter, const QColor& paint, bool before)
{
    QLinearGradient sheen(0, 120, 0, 640);
    sheen.setColorAt(0, paint.lighter(150));
    sheen.setColorAt(0.45, paint);
    sheen.setColorAt(1, paint.darker(140));
    painter.setPen(QPen(paint.darker(200), 4));
    painter.setBrush(sheen);
    QPainterPath panel;
    panel.moveTo(90, 620);
    panel.cubicTo(110, 320, 240, 170, 480, 150);
    panel.cubicTo(720, 140, 850, 240, 880, 620);
    panel.closeSubpath();
    painter.drawPath(panel);
    painter.setPen(QPen(paint.darker(160), 3));
    painter.drawArc(160, 360, 660, 160, 20 * 16, 140 * 16);
    if (!before)
        return;
    painter.setPen(QPen(QColor(0xe6, 0xe2, 0xda), 5, Qt::SolidLine, Qt::RoundCap));
    painter.drawLine(400, 420, 560, 380);
    painter.drawLine(430, 445, 575, 404);
    painter.setPen(QPen(QColor(0x55, 0x50, 0x48), 3));
    painter.drawLine(415, 432, 520, 405);
}

void drawScreen(QPainter& painter, bool before)
{
    painter.setPen(QPen(QColor(0x1c, 0x1c, 0x1e), 16));
    QLinearGradient glass(0, 150, 0, 600);
    glass.setColorAt(0, QColor(0x9f, 0xb0, 0xb2));
    glass.setColorAt(1, QColor(0x53, 0x60, 0x62));
    painter.setBrush(glass);
    QPainterPath path;
    path.moveTo(130, 590);
    path.lineTo(240, 180);
    path.quadTo(480, 130, 720, 180);
    path.lineTo(830, 590);
    path.quadTo(480, 540, 130, 590);
    painter.drawPath(path);
    if (!before)
        return;
    painter.setPen(QPen(QColor(0xf2, 0xf4, 0xf2), 3));
    for (const QLine line :
         {QLine(360, 300, 520, 360), QLine(520, 360, 640, 340), QLine(520, 360, 560, 470)})
        painter.drawLine(line);
}

} // namespace

QImage drawPicture(const PlaceId& place, PhotoMoment moment, const QString& stockNumber, int number)
{
    QImage image(pictureSize, QImage::Format_RGB32);
    QPainter painter(&image);
    painter.setRenderHint(QPainter::Antialiasing);
    QLinearGradient wall(0, 0, 0, 720);
    wall.setColorAt(0, QColor(0x8c, 0x86, 0x7c));
    wall.setColorAt(0.72, QColor(0x73, 0x6e, 0x66));
    wall.setColorAt(0.73, QColor(0x5c, 0x58, 0x52));
    wall.setColorAt(1, QColor(0x4c, 0x49, 0x44));
    painter.fillRect(image.rect(), wall);
    const bool before = moment == PhotoMoment::Before;
    const PlaceInfo* info = placeInfo(place);
    const PlaceKind kind = info == nullptr ? PlaceKind::Panel : info->kind;
    // The same whatever machine and compiler: no hash of Qt's, and each throw by itself.
    QRandomGenerator tint(qChecksum(stockNumber.toUtf8()));
    const int hue = tint.bounded(360);
    const int saturation = 70 + tint.bounded(80);
    const QColor paint = QColor::fromHsv(hue, saturation, 120 + tint.bounded(90));
    if (kind == PlaceKind::Wheel || kind == PlaceKind::Tyre || kind == PlaceKind::Brake)
        drawWheel(painter, before);
    else if (kind == PlaceKind::Glass)
        drawScreen(painter, before);
    else
        drawPanel(painter, paint, before);
    QFont font; // whatever the program uses: asking by name could load another cut first
    font.setPixelSize(26);
    painter.setFont(font);
    painter.setPen(QColor(0xf0, 0xec, 0xe2));
    QString under = QStringLiteral("Demo picture · %1 · %2").arg(stockNumber, nameOf(moment));
    if (number > 0)
        under += QStringLiteral(" · %1").arg(number + 1);
    painter.drawText(QRect(24, 668, 912, 40), Qt::AlignLeft | Qt::AlignVCenter, under);
    return image;
}

PictureFor picturesInto(PhotoVault& vault)
{
    auto kept = std::make_shared<std::map<QString, PhotoId>>();
    return [&vault, kept](const CarEntry& car, const PlaceId& place, PhotoMoment moment,
                          int number) -> PhotoId {
        const QString key =
            QStringLiteral("%1/%2/%3/%4")
                .arg(car.stock, place.text, nameOf(moment), QString::number(number));
        if (const auto it = kept->find(key); it != kept->end())
            return it->second;
        const auto stored = vault.keep(drawPicture(place, moment, car.stock, number));
        return kept->emplace(key, stored ? stored->id : PhotoId{}).first->second;
    };
}

} // namespace ramplight::demo
