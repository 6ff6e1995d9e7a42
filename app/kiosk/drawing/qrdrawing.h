// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/drawing/picture.h"

#include <QtQmlIntegration>

namespace ramplight {

/// A text as a QR code, black on white whatever the theme: readers want it so. GUI thread.
class QrDrawing : public ramplight::Picture
{
    Q_OBJECT
    QML_ELEMENT
    Q_PROPERTY(QString text READ text WRITE setText NOTIFY textChanged FINAL)

public:
    explicit QrDrawing(QQuickItem* parent = nullptr);

    [[nodiscard]] QString text() const { return m_text; }
    void setText(const QString& text);

signals:
    void textChanged();

protected:
    [[nodiscard]] QString pictureKey() const override;
    void paint(QPainter& painter, const QSizeF& size) const override;

private:
    QString m_text;
};

} // namespace ramplight
