// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QObject>
#include <QtQmlIntegration>

// Numbers that roles and properties carry, by name for QML: Wall.Held, ReadingKinds.Choice ...
// Roles that hold one are of type int.
namespace ramplight {

namespace Wall {
Q_NAMESPACE
QML_NAMED_ELEMENT(Wall)

/// How the edge of a card or of an operation's row is drawn. The numbers are EdgeDrawing's.
enum Band {
    Waiting = 0,
    InHand = 1,
    Paused = 2,
    AwaitingCheck = 3,
    Closed = 4,
    LeftAsIs = 5,
    Blocked = 6,
    Held = 7,
    NoBand = 8, ///< withdrawn; released
    Ready = 9,  ///< the folded corner
};
Q_ENUM_NS(Band)

/// How a place is drawn in an outline. The numbers are CarDrawing's.
enum Mark {
    Plain = 0,
    Outstanding = 1,
    Done = 2,
    NotLookedAt = 3,
};
Q_ENUM_NS(Mark)

/// The sign before a line of a card.
enum LineSign {
    Ordinary = 0, ///< a ring
    Safety = 1,   ///< a small square of hatch
};
Q_ENUM_NS(LineSign)

} // namespace Wall

namespace ReadingKinds {
Q_NAMESPACE
QML_NAMED_ELEMENT(ReadingKinds)

/// What is asked for: which pad or list opens.
enum Input {
    Limit = 0,  ///< digits, against limits
    Figure = 1, ///< digits that must equal this car's figure
    Record = 2, ///< digits, only kept
    Choice = 3, ///< one of the options
    Text = 4,   ///< letters
};
Q_ENUM_NS(Input)

enum Outcome {
    Open = 0, ///< nothing entered yet
    Recorded = 1,
    Inside = 2,
    Outside = 3,
};
Q_ENUM_NS(Outcome)

} // namespace ReadingKinds

} // namespace ramplight
