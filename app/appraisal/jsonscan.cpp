// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/jsonscan.h"

#include <rapidjson/error/en.h>
#include <rapidjson/memorystream.h>
#include <rapidjson/reader.h>

#include <algorithm>
#include <cstring>

namespace ramplight {

namespace {

class Handler : public rapidjson::BaseReaderHandler<rapidjson::UTF8<>, Handler>
{
public:
    Handler(const QByteArray& json, const rapidjson::MemoryStream& stream,
            const QSet<QString>& wanted, JsonScan& scan)
        : m_json(json)
        , m_stream(stream)
        , m_wanted(wanted)
        , m_scan(scan)
    {
    }

    bool Default() { return value(true); }
    bool String(const char* /*text*/, rapidjson::SizeType /*length*/, bool /*copy*/)
    {
        return value(true);
    }
    bool StartObject() { return value(false) && enter(false); }
    bool StartArray() { return value(false) && enter(true); }
    // The reader announces a bracket before it takes it.
    bool EndObject(rapidjson::SizeType /*members*/) { return leave(); }
    bool EndArray(rapidjson::SizeType /*items*/) { return leave(); }

    bool Key(const char* text, rapidjson::SizeType length, bool /*copy*/)
    {
        Frame& frame = m_frames.back();
        frame.key = QString::fromUtf8(text, static_cast<qsizetype>(length));
        frame.keyOffset = startOfToken();
        if (frame.keys.contains(frame.key)) {
            FileFault fault;
            fault.path = pointer();
            fault.expected = QStringLiteral("this field is there twice");
            placeFault(fault, m_json, frame.keyOffset);
            fault.words = faultInWords(fault);
            m_scan.faults.push_back(fault);
        }
        frame.keys.insert(frame.key);
        m_lastEnd = end();
        return true;
    }

    bool tooDeep = false;

private:
    struct Frame
    {
        bool isArray = false;
        qsizetype index = 0;
        QString key;
        qsizetype keyOffset = 0;
        QSet<QString> keys;
        QString pointer;
    };

    [[nodiscard]] qsizetype end() const { return static_cast<qsizetype>(m_stream.Tell()); }

    /// The reader tells where a key or a plain value ends; it starts after the separators and
    /// brackets behind the one before it.
    [[nodiscard]] qsizetype startOfToken() const
    {
        qsizetype at = m_lastEnd;
        while (at < m_json.size() && std::strchr(" \t\r\n,:{}[]", m_json.at(at)) != nullptr)
            ++at;
        return at;
    }

    [[nodiscard]] QString pointer() const
    {
        if (m_frames.empty())
            return {};
        const Frame& frame = m_frames.back();
        if (frame.isArray)
            return frame.pointer + QLatin1Char('/') + QString::number(frame.index);
        QString token = frame.key;
        token.replace(QLatin1Char('~'), QLatin1StringView("~0"));
        token.replace(QLatin1Char('/'), QLatin1StringView("~1"));
        return frame.pointer + QLatin1Char('/') + token;
    }

    bool value(bool isPlain)
    {
        if (!m_wanted.isEmpty()) {
            const QString here = pointer();
            const bool isMember = !m_frames.empty() && !m_frames.back().isArray;
            if (m_wanted.contains(here))
                m_scan.offsets.insert(here, isMember  ? m_frames.back().keyOffset
                                            : isPlain ? startOfToken()
                                                      : end());
        }
        m_lastEnd = end();
        if (isPlain)
            next();
        return true;
    }

    bool enter(bool isArray)
    {
        if (m_frames.size() >= static_cast<std::size_t>(maxJsonDepth)) {
            tooDeep = true;
            return false;
        }
        Frame frame;
        frame.isArray = isArray;
        frame.pointer = pointer();
        m_frames.push_back(std::move(frame));
        return true;
    }

    bool leave()
    {
        m_frames.pop_back();
        m_lastEnd = end();
        next();
        return true;
    }

    void next()
    {
        if (!m_frames.empty() && m_frames.back().isArray)
            ++m_frames.back().index;
    }

    const QByteArray& m_json;
    const rapidjson::MemoryStream& m_stream;
    const QSet<QString>& m_wanted;
    JsonScan& m_scan;
    std::vector<Frame> m_frames;
    qsizetype m_lastEnd = 0;
};

} // namespace

JsonScan scanJson(const QByteArray& json, const QSet<QString>& wanted)
{
    JsonScan scan;
    rapidjson::MemoryStream stream(json.constData(), static_cast<std::size_t>(json.size()));
    Handler handler(json, stream, wanted, scan);
    rapidjson::Reader reader;
    const rapidjson::ParseResult result =
        reader.Parse<rapidjson::kParseIterativeFlag | rapidjson::kParseValidateEncodingFlag>(
            stream, handler);
    FileFault fault;
    if (handler.tooDeep)
        fault.expected = QStringLiteral("lists and objects nested at most %1 deep were expected")
                             .arg(maxJsonDepth);
    else if (result.IsError())
        fault.expected = QStringLiteral("not JSON: %1")
                             .arg(QString::fromLatin1(rapidjson::GetParseError_En(result.Code())));
    if (!fault.expected.isEmpty()) {
        placeFault(fault, json, static_cast<qsizetype>(result.Offset()));
        fault.words = faultInWords(fault);
        scan.faults.push_back(fault);
    }
    return scan;
}

void placeFault(FileFault& fault, const QByteArray& json, qsizetype offset)
{
    const qsizetype at = std::clamp<qsizetype>(offset, 0, json.size());
    const qsizetype lineStart = at == 0 ? 0 : json.lastIndexOf('\n', at - 1) + 1;
    fault.line = static_cast<int>(std::count(json.begin(), json.begin() + at, '\n')) + 1;
    fault.column =
        static_cast<int>(QString::fromUtf8(json.mid(lineStart, at - lineStart)).toUcs4().size()) +
        1;
}

} // namespace ramplight
