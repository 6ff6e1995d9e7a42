// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// A question with a few answers under it.
//   question, options, index;  signal chosen(int index)
Column {
    id: root

    property string question: ""
    property alias options: row.options
    property alias index: row.index

    signal chosen(int index)

    spacing: Theme.half

    Label {
        width: parent.width
        text: root.question
        role: Label.Detail
        muted: true
        elide: Text.ElideRight
    }

    ChoiceRow {
        id: row

        width: parent.width
        onChosen: index => root.chosen(index)
    }
}
