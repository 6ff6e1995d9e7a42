// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme

// Chips in a row that wraps; at most one is chosen.
//   options: list of words;  index: the chosen one or -1;  paper;  signal chosen(int index)
Flow {
    id: root

    property list<string> options
    property int index: -1
    property bool paper: true

    signal chosen(int index)

    spacing: Theme.gap

    Repeater {
        model: root.options

        delegate: ChoiceChip {
            required property string modelData
            required property int index

            text: modelData
            selected: index === root.index
            paper: root.paper
            onTapped: {
                root.index = index
                root.chosen(index)
            }
        }
    }
}
