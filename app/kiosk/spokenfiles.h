// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/spokenround.h"

#include <QString>
#include <QStringList>

#include <vector>

// What the desk tells the screens of transcripts and of the words in them. Plain values.
namespace ramplight {

/// A transcript that waits in the drop folder or on a stick.
struct WaitingTranscript
{
    QString path;
    QString name;
    QString where; ///< "drop folder", or the stick's name
    Moment modified;
    int seconds = -1;     ///< length of what is said; -1: the file has no times
    int wordCount = 0;    ///< zero where it cannot be read
    QString fault;        ///< why it is no transcript, in words; empty
    QStringList warnings; ///< what is damaged, with its line
    QString recording;    ///< path of the recording beside it; empty

    friend bool operator==(const WaitingTranscript&, const WaitingTranscript&) = default;
};

/// A transcript that was read for a car.
struct TranscriptTaken
{
    TranscriptId transcript;
    QStringList warnings;
    bool known = false; ///< it was read for this car before; nothing changed
};

/// The words of a round, for showing. Positions are those of QString.
struct SpokenText
{
    enum class Kind { Place, Defect, Work };
    struct Mark
    {
        Kind kind = Kind::Place;
        int first = 0;
        int last = 0; ///< behind its end
    };
    struct Piece
    {
        int first = 0;
        int seconds = -1; ///< from the start of the recording
    };

    QString text;
    std::vector<Mark> marks;
    std::vector<Piece> pieces;
    std::vector<int> draftFirst; ///< of each draft's quote
    std::vector<int> draftLast;
    QString recording; ///< path; empty: it is not here
};

} // namespace ramplight
