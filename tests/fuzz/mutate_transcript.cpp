// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
//
// Changes transcripts by pieces of speech and of the formats, with the labelled texts as more to
// take them from.
#include "mutating.h"

#include <QByteArrayList>
#include <QDir>
#include <QFile>

#include <vector>

using namespace ramplight;

namespace {

const QString root = QStringLiteral(RAMPLIGHT_SOURCE_DIR "/");

QByteArray bytesOf(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

std::vector<QByteArray> seeds()
{
    std::vector<QByteArray> all;
    for (const QString& folder :
         {QStringLiteral("tests/appraisal/spoken/"), QStringLiteral("tests/fuzz/transcripts/")}) {
        const QDir dir(root + folder);
        for (const QString& name : dir.entryList(QDir::Files))
            if (!name.endsWith(QLatin1String(".json")))
                all.push_back(bytesOf(dir.filePath(name)));
    }
    for (const char* phrases : {"en", "de"})
        for (const QByteArray& line :
             bytesOf(root +
                     QStringLiteral("tests/appraisal/phrases-%1.txt").arg(QLatin1String(phrases)))
                 .split('\n'))
            if (line.contains(" => "))
                all.push_back(line.left(line.indexOf(" => ")));
    return all;
}

class TranscriptMutator : public fuzz::Mutator
{
public:
    using Mutator::Mutator;

private:
    /// A piece of a text, from a word's start to a word's end.
    QByteArray piece(const QByteArray& of)
    {
        const qsizetype from = pick(of.size());
        return of.mid(from, 1 + pick(120));
    }

    void change(QByteArray& file) override
    {
        static const QByteArrayList odd{"-->",
                                        "\n\n",
                                        "<v ",
                                        "<",
                                        ">",
                                        "&#x110000;",
                                        "&#0;",
                                        "&",
                                        "WEBVTT\n\n",
                                        "\r",
                                        "\xff",
                                        QByteArray(1, '\0'),
                                        "\xe2\x80",
                                        "\xe2\x80\x99",
                                        "[",
                                        "99:99:99,999",
                                        "999999999999",
                                        "no no no",
                                        "sorry",
                                        "the same",
                                        "bar",
                                        "all four",
                                        "one hundred and and",
                                        "½",
                                        "'",
                                        "'s",
                                        "the other side",
                                        "point",
                                        "4.5.6",
                                        ",",
                                        "?",
                                        "- ",
                                        "dreihundertzwanzigtausend"};
        const qsizetype at = pick(file.size() + 1);
        switch (pick(7)) {
        case 0:
            file.insert(at, odd.at(pick(odd.size())));
            break;
        case 1:
            file.remove(at, 1 + pick(40));
            break;
        case 2:
            file.insert(at, piece(any()));
            break;
        case 3:
            if (!file.isEmpty())
                file[pick(file.size())] = char(pick(256));
            break;
        case 4: {
            const QByteArray moved = piece(file);
            file.insert(at, moved);
            break;
        }
        case 5:
            file.truncate(at);
            break;
        default:
            file.replace(odd.at(pick(odd.size())), odd.at(pick(odd.size())));
            break;
        }
    }
};

} // namespace

extern "C" std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size,
                                               std::size_t most, unsigned seed)
{
    static const std::vector<QByteArray> all = seeds();
    return TranscriptMutator(all, seed).mutate(data, size, most, seed % 3 == 0);
}
