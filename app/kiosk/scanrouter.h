// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "access/scanreader.h"

#include <QObject>
#include <QTimer>

#include <functional>
#include <memory>
#include <vector>

class QKeyEvent;

namespace ramplight {

/// Keeps the scans of a keyboard-wedge reader out of text fields: an application event filter that
/// holds fast bursts of keys back, hands them on when they were typing, and says what was scanned
/// when they were a scan. Install it with QCoreApplication::installEventFilter. GUI thread.
class ScanRouter : public QObject
{
    Q_OBJECT

public:
    explicit ScanRouter(const ScanRules& rules = {}, std::function<qint64()> steadyMs = {},
                        QObject* parent = nullptr);
    ~ScanRouter() override;

    bool eventFilter(QObject* watched, QEvent* event) override;

signals:
    void badgeScanned(const QString& code);
    void carScanned(const QString& code);
    void wheelScanned(const QString& code);
    void vinScanned(const QString& vin);
    void unknownScanned(const QString& text);
    /// Any key or touch: somebody is there.
    void touched();

private:
    struct Held;

    void idle();
    void answer(const ScanAnswer& answer);
    void handOn(int keys);

    ScanReader m_reader;
    std::function<qint64()> m_steadyMs;
    QTimer m_idle;
    std::vector<std::unique_ptr<Held>> m_held;
    bool m_handingOn = false;
    int m_gapMs;
};

} // namespace ramplight
