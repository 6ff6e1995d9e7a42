// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "desk/transcriptroom.h"

#include "appraisal/corrections.h"
#include "domain/say.h"
#include "evidence/broughtfolders.h"
#include "evidence/durablefile.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>

#include <algorithm>
#include <map>
#include <utility>

namespace ramplight {

namespace {

constexpr std::size_t mostListed = 60;
/// The length of a longer file is not looked for while the list is made.
constexpr qint64 mostListedBytes = 1024LL * 1024;

const QStringList& transcriptEndings()
{
    static const QStringList all{QStringLiteral("*.vtt"), QStringLiteral("*.srt"),
                                 QStringLiteral("*.txt")};
    return all;
}

/// The films and sounds of a folder, found by the name without its ending, however that is written.
class Recordings
{
public:
    explicit Recordings(const QString& folder)
    {
        static const QStringList endings{
            QStringLiteral("mp4"),  QStringLiteral("mov"),  QStringLiteral("m4v"),
            QStringLiteral("3gp"),  QStringLiteral("webm"), QStringLiteral("mkv"),
            QStringLiteral("avi"),  QStringLiteral("mp3"),  QStringLiteral("m4a"),
            QStringLiteral("aac"),  QStringLiteral("ogg"),  QStringLiteral("opus"),
            QStringLiteral("flac"), QStringLiteral("wav")};
        std::map<QString, qsizetype> ranks;
        for (const QFileInfo& file : QDir(folder).entryInfoList(QDir::Files)) {
            const qsizetype rank = endings.indexOf(file.suffix().toLower());
            const auto known = ranks.find(file.completeBaseName());
            if (rank < 0 || (known != ranks.end() && known->second <= rank))
                continue;
            ranks[file.completeBaseName()] = rank;
            m_paths[file.completeBaseName()] = file.absoluteFilePath();
        }
    }

    /// Empty: there is none.
    [[nodiscard]] QString beside(const QString& transcriptName) const
    {
        const auto found = m_paths.find(QFileInfo(transcriptName).completeBaseName());
        return found == m_paths.end() ? QString() : found->second;
    }

private:
    std::map<QString, QString> m_paths;
};

tl::expected<QByteArray, QString> bytesOf(const QString& path)
{
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly))
        return tl::unexpected(say("The file cannot be read any more. Was the stick pulled out?"));
    return file.read(maxTranscriptBytes + 1);
}

void lookInto(const QFileInfo& info, WaitingTranscript& waiting)
{
    if (info.size() > mostListedBytes && info.size() <= maxTranscriptBytes)
        return;
    const auto bytes = bytesOf(info.absoluteFilePath());
    const auto transcript = bytes
                                ? parseTranscript(*bytes)
                                : tl::expected<Transcript, QString>(tl::unexpected(bytes.error()));
    if (!transcript) {
        waiting.fault = transcript.error();
        return;
    }
    waiting.warnings = warningWords(*transcript);
    for (const Utterance& utterance : transcript->utterances) {
        const int end = std::max(utterance.milliseconds, utterance.endMilliseconds);
        if (end >= 0)
            waiting.seconds = std::max(waiting.seconds, end / 1000);
        waiting.wordCount += 1 + static_cast<int>(std::ranges::count(utterance.text, ' '));
    }
}

/// Bytes of UTF-8 to positions in the text that they make; asked in any order.
class Positions
{
public:
    explicit Positions(const std::string& text)
        : m_text(text)
    {
    }

    [[nodiscard]] int at(std::uint32_t byte)
    {
        byte = std::min(byte, static_cast<std::uint32_t>(m_text.size()));
        if (byte < m_byte) {
            m_byte = 0;
            m_position = 0;
        }
        for (; m_byte < byte; ++m_byte) {
            const auto unit = static_cast<unsigned char>(m_text[m_byte]);
            // Every first byte is a character; one beyond the first plane takes two places.
            m_position += (unit & 0xC0U) == 0x80U ? 0 : unit >= 0xF0U ? 2 : 1;
        }
        return m_position;
    }

private:
    const std::string& m_text;
    std::uint32_t m_byte = 0;
    int m_position = 0;
};

SpokenText::Kind kindOf(Heard what)
{
    switch (what) {
    case Heard::Place:
        return SpokenText::Kind::Place;
    case Heard::Defect:
        return SpokenText::Kind::Defect;
    case Heard::Work:
        break;
    }
    return SpokenText::Kind::Work;
}

} // namespace

TranscriptRoom::TranscriptRoom(SpeechPlaces places)
    : m_places(std::move(places))
    , m_store(m_places.transcripts)
{
}

tl::expected<std::shared_ptr<const spoken::Lexicon>, QString> TranscriptRoom::lexicon()
{
    const std::scoped_lock lock(m_reading);
    if (!m_lexicon) {
        auto read = spoken::Lexicon::read(m_places.lexicon());
        if (!read)
            return tl::unexpected(
                say("The words of this language cannot be read: %1").arg(read.error()));
        m_lexicon = std::make_shared<const spoken::Lexicon>(std::move(*read));
    }
    return m_lexicon;
}

tl::expected<std::vector<WaitingTranscript>, QString> TranscriptRoom::waiting() const
{
    if (!QFileInfo(m_places.dropFolder).isDir())
        return tl::unexpected(
            say("The drop folder is not there. Check whether its disk or share is connected."));
    std::vector<std::pair<QFileInfo, QString>> files;
    std::map<QString, Recordings> recordings;
    for (const BroughtFolder& folder : broughtFolders(m_places.dropFolder, m_places.sticks))
        for (const QFileInfo& file :
             QDir(folder.path).entryInfoList(transcriptEndings(), QDir::Files | QDir::NoSymLinks))
            files.emplace_back(file, folder.isStick() ? folder.name : say("drop folder"));
    std::ranges::stable_sort(files, std::greater{},
                             [](const auto& file) { return file.first.lastModified(); });
    if (files.size() > mostListed)
        files.resize(mostListed);
    std::vector<WaitingTranscript> all;
    for (const auto& [file, where] : files) {
        WaitingTranscript waiting;
        waiting.path = file.absoluteFilePath();
        waiting.name = file.fileName();
        waiting.where = where;
        waiting.modified = {file.lastModified().toMSecsSinceEpoch()};
        waiting.recording =
            recordings.try_emplace(file.path(), file.path()).first->second.beside(file.fileName());
        lookInto(file, waiting);
        all.push_back(std::move(waiting));
    }
    return all;
}

tl::expected<DraftedRound, QString> TranscriptRoom::draft(const QString& path, TrafficSide traffic)
{
    const auto bytes = bytesOf(path);
    if (!bytes)
        return tl::unexpected(bytes.error());
    const auto words = lexicon();
    if (!words)
        return tl::unexpected(words.error());
    auto drafted =
        draftRound(*bytes, QFileInfo(path).fileName(), **words, m_places.language, traffic);
    if (!drafted)
        return drafted;
    if (const auto kept = m_store.keep(drafted->round.transcript, *bytes); !kept)
        return tl::unexpected(kept.error());
    return drafted;
}

tl::expected<HeardWords, QString> TranscriptRoom::heard(const SpokenRound& round)
{
    const auto bytes = m_store.open(round.transcript);
    if (!bytes)
        return tl::unexpected(bytes.error());
    const auto words = lexicon();
    if (!words)
        return tl::unexpected(words.error());
    const auto transcript = parseTranscript(*bytes);
    if (!transcript)
        return tl::unexpected(transcript.error());
    return heardWords(*transcript, **words);
}

QString TranscriptRoom::recordingNamed(const QString& transcriptName) const
{
    for (const BroughtFolder& folder : broughtFolders(m_places.dropFolder, m_places.sticks))
        if (const QString found = Recordings(folder.path).beside(transcriptName); !found.isEmpty())
            return found;
    return {};
}

tl::expected<SpokenText, QString> TranscriptRoom::text(const SpokenRound& round)
{
    const auto words = heard(round);
    if (!words)
        return tl::unexpected(words.error());
    SpokenText shown;
    shown.text = QString::fromUtf8(words->text.data(), qsizetype(words->text.size()));
    Positions positions(words->text);
    for (const HeardMark& mark : words->marks)
        shown.marks.push_back(
            {kindOf(mark.what), positions.at(mark.begin), positions.at(mark.end)});
    for (const HeardStretch& stretch : words->stretches)
        shown.pieces.push_back({positions.at(stretch.begin),
                                stretch.milliseconds < 0 ? -1 : stretch.milliseconds / 1000});
    for (const SpokenDraft& draft : round.drafts) {
        shown.draftFirst.push_back(positions.at(static_cast<std::uint32_t>(draft.first)));
        shown.draftLast.push_back(positions.at(static_cast<std::uint32_t>(draft.last)));
    }
    shown.recording = recordingNamed(round.name);
    return shown;
}

tl::expected<void, QString>
TranscriptRoom::keepCorrection(const SpokenRound& round, int draft,
                               const std::optional<FindingData>& corrected)
{
    const auto words = heard(round);
    if (!words)
        return tl::unexpected(words.error());
    const SpokenDraft& drafted = round.drafts.at(static_cast<std::size_t>(draft));
    const std::string around = wordsAround(*words, static_cast<std::uint32_t>(drafted.first),
                                           static_cast<std::uint32_t>(drafted.last));
    const QByteArray line =
        correctionLine({round.name, round.language, round.traffic, QString::fromStdString(around),
                        drafted.data, corrected});
    const std::scoped_lock lock(m_reading);
    if (!appendDurably(m_places.corrections, line))
        return tl::unexpected(say("What was changed could not be written down for whoever looks "
                                  "after the reader. The finding itself is kept."));
    return {};
}

} // namespace ramplight
