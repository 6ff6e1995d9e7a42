// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
//
// Keys as a reader and people send them: pairs of bytes, a key and the milliseconds since the one
// before (less than nought: the clock was set back).
#include "fuzzing.h"

#include "access/scanreader.h"
#include "domain/vin.h"
#include "domain/wheeltag.h"

#include <QStringList>

#include <vector>

using namespace ramplight;
using fuzz::must;

namespace {

constexpr std::uint8_t noKey = 1; ///< no key: so long nothing came

QString keyOf(std::uint8_t byte)
{
    // Letters that are not ASCII, some of which have capitals that are.
    static const QStringList others{
        QStringLiteral("ß"),  QStringLiteral("ſ"), QStringLiteral("ı"), QStringLiteral("é"),
        QStringLiteral("Ａ"), QStringLiteral("٣"), QStringLiteral("ﬁ"), QStringLiteral("\u00a0")};
    if (byte == 0)
        return {}; // an arrow
    if (byte < 0x80)
        return QChar::fromLatin1(static_cast<char>(byte));
    return others.at(byte % others.size());
}

bool isCode(const QString& text)
{
    for (const QChar c : text)
        if (!((c >= u'0' && c <= u'9') || (c >= u'A' && c <= u'Z') || c == u'-'))
            return false;
    return !text.isEmpty();
}

/// Capitals of the letters of ASCII, the others as they are.
QString capitals(QString text)
{
    for (QChar& c : text)
        if (c >= u'a' && c <= u'z')
            c = QChar(char16_t(c.unicode() - u'a' + u'A'));
    return text;
}

/// What a scan must be by what was typed.
void look(const ScanAnswer& scan, const QString& typed, const ScanRules& rules)
{
    const QString text = capitals(typed.trimmed());
    switch (scan.scan) {
    case ScanKind::Badge:
        must(text == rules.badgePrefix + scan.payload && isCode(scan.payload), "a badge");
        return;
    case ScanKind::CarLabel:
        must(text == rules.carPrefix + scan.payload && isCode(scan.payload), "a car's label");
        must(carLabelCode(rules, scan.payload, {}) == text, "a label that is printed");
        return;
    case ScanKind::WheelTag:
        must(text == rules.wheelPrefix + scan.payload && isCode(scan.payload), "a wheel's tag");
        if (const auto tag = readTagCode(scan.payload))
            must(!tag->wheel.isEmpty() && tagCode(*tag) == scan.payload, "a tag that is printed");
        return;
    case ScanKind::Vin:
        must(text == scan.payload || text == u'I' + scan.payload, "an identification number");
        must(scan.payload.size() == 17, "seventeen characters");
        if (const auto vin = readVin(scan.payload); !vin)
            must(!words(vin.error()).isEmpty(), "a refusal has words");
        return;
    case ScanKind::Unknown:
        must(scan.payload == typed, "what is not known is as it was typed");
        return;
    }
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    const ScanRules rules;
    ScanReader reader(rules);
    struct Key
    {
        QString text;
        qint64 at;
    };
    std::vector<Key> queue; // what the caller keeps back
    qint64 at = 1'000;
    for (std::size_t i = 0; i + 1 < size; i += 2) {
        at += static_cast<std::int8_t>(data[i + 1]);
        const bool isKey = data[i] != noKey;
        if (isKey)
            queue.push_back({keyOf(data[i]), at});
        const ScanAnswer answer = isKey ? reader.feed(queue.back().text, at) : reader.idle(at);
        switch (answer.kind) {
        case ScanAnswer::Kind::Held:
            must(answer.release == 0, "what is held is not handed on");
            break;
        case ScanAnswer::Kind::Typing:
            must(answer.release >= 1 && static_cast<std::size_t>(answer.release) <= queue.size(),
                 "as many as there are");
            queue.erase(queue.begin(), queue.begin() + answer.release);
            break;
        case ScanAnswer::Kind::Scan: {
            must(isKey && (data[i] == '\r' || data[i] == '\n'), "a scan ends with Enter");
            QString typed;
            for (std::size_t k = 0; k + 1 < queue.size(); ++k) {
                typed += queue[k].text;
                const qint64 gap = queue[k + 1].at - queue[k].at;
                must(gap >= 0 && gap < rules.gapMs, "nobody types so fast");
            }
            must(typed.size() >= rules.shortest && typed.size() <= rules.longest,
                 "a scan has a length");
            look(answer, typed, rules);
            queue.clear();
            break;
        }
        }
        must(reader.held() >= 0 && static_cast<std::size_t>(reader.held()) == queue.size(),
             "no key is lost, none comes twice");
        must(reader.held() <= rules.longest, "no more is held than a scan has");
    }
    return 0;
}
