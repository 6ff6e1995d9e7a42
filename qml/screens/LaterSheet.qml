// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls

// A sheet that is made when it is first asked for: whatever lies behind it is there sooner. Fills its
// parent; place it last.
//   file (of a DialogSheet of this folder), given (its required properties)
//   ask(): shows it;  end(): puts it away unanswered
Loader {
    id: root

    required property url file
    required property var given

    function ask(): void {
        if (root.item === null)
            root.setSource(root.file, root.given)
        const sheet = root.item as DialogSheet
        if (sheet !== null)
            sheet.shown = true
    }

    function end(): void {
        const sheet = root.item as DialogSheet
        if (sheet !== null)
            sheet.shown = false
    }

    anchors.fill: parent
}
