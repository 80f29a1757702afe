// The floor for the start of the full screen: nothing but the terminal library, loaded.
import { render } from 'ink'
import { createElement } from 'react'

if (render === undefined || createElement === undefined) process.exitCode = 1
