// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "access/scanreader.h"

#include <algorithm>
#include <utility>

namespace ramplight {
namespace {

/// ISO 3779: digits and capitals without I, O and Q.
bool isVinCharacter(QChar c)
{
    return (c >= u'0' && c <= u'9') ||
           (c >= u'A' && c <= u'Z' && c != u'I' && c != u'O' && c != u'Q');
}

bool isVin(QStringView text)
{
    return text.size() == 17 && std::all_of(text.begin(), text.end(), isVinCharacter);
}

bool isCode(QStringView text)
{
    return !text.isEmpty() && std::all_of(text.begin(), text.end(), [](QChar c) {
        return (c >= u'0' && c <= u'9') || (c >= u'A' && c <= u'Z') || c == u'-';
    });
}

/// Of the letters that a label carries only: capitals of others are two letters, or another one's.
QString capitalsOf(QString text)
{
    for (QChar& c : text)
        if (c >= u'a' && c <= u'z')
            c = c.toUpper();
    return text;
}

bool isPrinting(const QString& keyText)
{
    return keyText.size() == 1 && keyText.front().isPrint();
}

ScanAnswer scanOf(ScanKind kind, const QString& payload)
{
    return {.kind = ScanAnswer::Kind::Scan, .release = 0, .scan = kind, .payload = payload};
}

} // namespace

ScanAnswer classifyScan(const ScanRules& rules, const QString& text)
{
    // A reader beside a keyboard with caps lock on sends small letters.
    const QString capitals = capitalsOf(text.trimmed());
    const auto behind = [&capitals](const QString& prefix) {
        return !prefix.isEmpty() && capitals.startsWith(capitalsOf(prefix))
                   ? capitals.mid(prefix.size())
                   : QString();
    };
    if (const QString code = behind(rules.badgePrefix); isCode(code))
        return scanOf(ScanKind::Badge, code);
    if (const QString code = behind(rules.carPrefix); isCode(code))
        return scanOf(ScanKind::CarLabel, code);
    if (const QString code = behind(rules.wheelPrefix); isCode(code))
        return scanOf(ScanKind::WheelTag, code);
    if (isVin(capitals))
        return scanOf(ScanKind::Vin, capitals);
    // VIN bar codes of imported cars may carry an I in front, which no VIN can begin with.
    if (capitals.startsWith(u'I') && isVin(QStringView(capitals).mid(1)))
        return scanOf(ScanKind::Vin, capitals.mid(1));
    return scanOf(ScanKind::Unknown, text);
}

QString carLabelCode(const ScanRules& rules, const QString& stockNumber, const QString& vin)
{
    const QString label = capitalsOf(rules.carPrefix + stockNumber.trimmed());
    const auto readsBack = [&rules](const QString& code, ScanKind kind, const QString& payload) {
        return code.size() >= rules.shortest && code.size() <= rules.longest &&
               classifyScan(rules, code) == scanOf(kind, payload);
    };
    if (readsBack(label, ScanKind::CarLabel, capitalsOf(stockNumber.trimmed())))
        return label;
    const QString number = capitalsOf(vin.trimmed());
    return readsBack(number, ScanKind::Vin, number) ? number : QString();
}

ScanReader::ScanReader(ScanRules rules)
    : m_rules(std::move(rules))
{
}

ScanAnswer ScanReader::feed(const QString& keyText, qint64 atMs)
{
    const bool inBurst = isClose(atMs);
    const bool goesOn = inBurst && !m_held.isEmpty();
    const bool isEnter = keyText == QLatin1String("\r") || keyText == QLatin1String("\n");
    m_lastMs = atMs;
    m_tooLong = inBurst && (m_tooLong || (!isEnter && held() >= m_rules.longest));
    if (m_tooLong)
        return releaseAll(1);
    if (isEnter) {
        if (!goesOn || held() < m_rules.shortest)
            return releaseAll(1);
        return classifyScan(m_rules, std::exchange(m_held, {}));
    }
    if (!isPrinting(keyText))
        return releaseAll(1);
    if (goesOn || m_held.isEmpty()) {
        m_held += keyText;
        return {};
    }
    ScanAnswer earlier = releaseAll(0);
    m_held = keyText;
    return earlier;
}

ScanAnswer ScanReader::idle(qint64 atMs)
{
    return m_held.isEmpty() || isClose(atMs) ? ScanAnswer{} : releaseAll(0);
}

bool ScanReader::isClose(qint64 atMs) const
{
    return atMs >= m_lastMs && atMs - m_lastMs < m_rules.gapMs;
}

ScanAnswer ScanReader::releaseAll(int more)
{
    ScanAnswer answer{.kind = ScanAnswer::Kind::Typing,
                      .release = held() + more,
                      .scan = ScanKind::Unknown,
                      .payload = {}};
    m_held.clear();
    return answer;
}

} // namespace ramplight
