// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QString>

// Tells the scans of a keyboard-wedge reader from what somebody types. Pure: times are passed in,
// no timers, no threads, no errors.
namespace ramplight {

/// Prefixes are settings of the house, printed on its badges and car labels.
struct ScanRules
{
    QString badgePrefix = QStringLiteral("RLB-");
    QString carPrefix = QStringLiteral("RLC-");
    QString wheelPrefix = QStringLiteral("RLW-"); ///< of tags that go with a wheel
    int gapMs = 50;    ///< two keys of one scan are closer than this; nobody types so fast for long
    int shortest = 4;  ///< characters before Enter
    int longest = 128; ///< more is a key held down or a paste

    friend bool operator==(const ScanRules&, const ScanRules&) = default;
};

enum class ScanKind {
    Badge,    ///< payload: the code behind the prefix, in capitals
    CarLabel, ///< payload: the code behind the prefix, in capitals
    WheelTag, ///< payload: the code behind the prefix, in capitals; wheeltag.h reads it
    Vin,      ///< payload: 17 characters in capitals; its check digit is the domain's matter
    Unknown,  ///< payload: as scanned
};

struct ScanAnswer
{
    enum class Kind {
        Held,   ///< this key may be the beginning of a scan: keep it back
        Typing, ///< release keys were typed: hand them on, oldest first; later ones stay held
        Scan,   ///< a scan is complete: drop all held keys
    };
    Kind kind = Kind::Held;
    int release = 0;
    ScanKind scan = ScanKind::Unknown;
    QString payload;

    friend bool operator==(const ScanAnswer&, const ScanAnswer&) = default;
};

/// What a scanned text is.
[[nodiscard]] ScanAnswer classifyScan(const ScanRules& rules, const QString& text);

/// What the code on a car's label says so that its scan opens the car: the prefix and the stock
/// number; the VIN where the stock number has characters that no label carries; empty when neither
/// can be read back.
[[nodiscard]] QString carLabelCode(const ScanRules& rules, const QString& stockNumber,
                                   const QString& vin);

/// Feed it every key press except modifiers alone and auto-repeats. The caller queues the key
/// events; the answer says how many of the queue to hand on. When no key follows, call idle() after
/// gapMs, or a typed letter would stay held.
class ScanReader
{
public:
    explicit ScanReader(ScanRules rules = {});

    /// keyText is the text of the key event (empty for arrows and the like); atMs any steady count
    /// of milliseconds.
    [[nodiscard]] ScanAnswer feed(const QString& keyText, qint64 atMs);
    /// Typing when the held keys have waited too long to be a scan, else Held.
    [[nodiscard]] ScanAnswer idle(qint64 atMs);
    /// Keys kept back now.
    [[nodiscard]] int held() const { return static_cast<int>(m_held.size()); }

private:
    [[nodiscard]] bool isClose(qint64 atMs) const;
    ScanAnswer releaseAll(int more);

    ScanRules m_rules;
    QString m_held;
    qint64 m_lastMs = 0;
    bool m_tooLong = false; // the burst outgrew a scan: the rest of it is typing as well
};

} // namespace ramplight
